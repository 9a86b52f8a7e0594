import { Link } from '@tanstack/react-router';
import type { Handover } from '#contracts/custody.ts';
import { useSession } from '../../app/session.tsx';
import { buttonClass } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { TrayGiven } from './waiting.tsx';

interface EndedProps {
  readonly handover: Handover;
  readonly outcome: NonNullable<Handover['outcome']>;
}

/** How it was answered, and who holds it now. */
export function Ended({ handover, outcome }: EndedProps) {
  const words = useWords().handover;
  const format = useFormat();
  const { person } = useSession();
  const { giver, receiver, place, endedAt, endedReason, trays } = handover;
  const moved = outcome === 'accepted' || outcome === 'accepted with a difference';
  const holds = moved
    ? receiver.id === person.id
      ? words.youHold(place.name)
      : words.nowHolds(receiver.name, place.name)
    : giver.id === person.id
      ? words.youStillHold
      : words.stillHolds(giver.name);
  return (
    <>
      <div className={outcome === 'accepted with a difference' ? 'outcome differs' : 'outcome'} role="status">
        <h2>{words.outcome[outcome]}</h2>
        <p>{holds}</p>
        {endedReason === '' ? null : <p>{words.because(endedReason)}</p>}
        {endedAt === null ? null : <p className="note num">{words.ended(format.since(endedAt))}</p>}
      </div>
      {moved ? (
        <ol className="trays-to-count">
          {trays.map((tray) => (
            <TrayGiven key={tray.trayId} tray={tray} receiver={receiver.name} />
          ))}
        </ol>
      ) : null}
      <div className="answer">
        <div className="hands-acts">
          <Link className={buttonClass('main', true)} to="/bench">
            {words.toBench}
          </Link>
          <Link
            className={buttonClass('plain', true)}
            to="/engines/$engineId"
            params={{ engineId: handover.engine.id }}
          >
            {words.toEngine}
          </Link>
        </div>
      </div>
    </>
  );
}
