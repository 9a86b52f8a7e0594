import { Link } from '@tanstack/react-router';
import type { Reserved } from '#contracts/demands.ts';
import type { PartName } from '#contracts/parts.ts';
import type { GoodsReceived } from '#contracts/stock.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { FirstOf } from './first-of.tsx';
import { ReserveAnswer } from './reserve-answer.tsx';

interface TakenProps {
  readonly part: PartName;
  readonly received: GoodsReceived;
  readonly onClose: () => void;
}

/** What came of it: for whom it is reserved, and who else is waiting. */
export function GoodsTaken({ part, received, onClose }: TakenProps) {
  const { receiveDialog: words } = useWords().stores;
  const { reservedFor, saidNo, waiting, waitingTotal } = received;
  const jobWords = ({ family, serial }: { family: string; serial: string }) => `${family} ${serial}`;
  return (
    <div className="form" role="status">
      <p>
        <b>{words.done(received.onHand, part.name)}</b>
      </p>
      {reservedFor === null ? null : (
        <p>
          {words.reserved(reservedFor.quantity, jobWords(reservedFor.job))} <HeldUntil until={reservedFor.until} />
        </p>
      )}
      {saidNo === null ? null : <p>{words.saidNo(jobWords(saidNo))}</p>}
      <p className="num">{words.free(received.available)}</p>
      {waiting.length === 0 ? null : (
        <section>
          <h3>{words.waiting}</h3>
          <ul className="waiting">
            {waiting.map(({ job, demandLineId, short, askedUntil }) => (
              <Waiting
                key={demandLineId}
                said={words.waitingFor(jobWords(job), short)}
                jobId={job.id}
                lineId={demandLineId}
                askedUntil={askedUntil}
                free={received.available > 0}
              />
            ))}
          </ul>
          <MoreWait shown={waiting.length} of={waitingTotal} />
        </section>
      )}
      <div className="dialog-acts">
        <Button kind="main" onClick={onClose}>
          {words.close}
        </Button>
      </div>
    </div>
  );
}

/** Where those stand who wait beyond the first. */
export function MoreWait(count: { readonly shown: number; readonly of: number }) {
  const { stores: words, storesDesks } = useWords();
  return (
    <FirstOf {...count}>
      {words.waitingMore} <Link to="/stores/short">{storesDesks.short.title}</Link>.
    </FirstOf>
  );
}

/** What came for a job without a yes is held until a day. */
export function HeldUntil({ until }: { readonly until: string | null }) {
  const { line: words } = useWords().stores;
  const format = useFormat();
  return until === null ? null : <span className="note">{words.heldUntil(format.since(until))}</span>;
}

interface WaitingProps {
  readonly said: string;
  readonly jobId: string;
  readonly lineId: string;
  /** Until when they wait for the owner's yes: so long it is held for them, too. */
  readonly askedUntil: string | null;
  readonly free: boolean;
}

/** Somebody else who is short of it, and the button that reserves for them. */
export function Waiting({ said, jobId, lineId, askedUntil, free }: WaitingProps) {
  const { receiveDialog: words } = useWords().stores;
  const writing = useWrite<Reserved>();
  const give = () =>
    writing.write({
      path: `/jobs/${jobId}/reservations`,
      body: {
        allOrNothing: false,
        demandLineIds: [lineId],
        ...(askedUntil === null ? {} : { expiresAt: askedUntil }),
      },
    });
  return (
    <li>
      <span>{said}</span>
      {writing.reply === undefined ? (
        <Button aria-label={`${words.giveTo}: ${said}`} disabled={!free || writing.busy} onClick={give}>
          {words.giveTo}
        </Button>
      ) : (
        <ReserveAnswer answer={writing.reply} />
      )}
      <Refusal error={writing.error} />
    </li>
  );
}
