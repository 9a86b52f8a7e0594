import type { Handover, HandoverTray } from '#contracts/custody.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { LinePlace } from './line-place.tsx';

/** A tray as the giver sees it: what was given, and the receiver's count as soon as there is one. */
export function TrayGiven({ tray, receiver }: { readonly tray: HandoverTray; readonly receiver: string }) {
  const words = useWords().handover;
  const differs = tray.differences.length > 0;
  return (
    <li className={differs ? 'to-count differs' : 'to-count'}>
      <span className="tray-number num">{tray.label}</span>
      <div className="tray-name">
        <b>{tray.name}</b>
      </div>
      {tray.counted ? null : <p className="note">{words.notCounted}</p>}
      {tray.counted && !differs && tray.obligations.length > 0 ? <p className="note">{words.differedFirst}</p> : null}
      <table className="given">
        <thead>
          <tr>
            <td />
            <th className="n" scope="col">
              {words.given}
            </th>
            <th className="n" scope="col">
              {words.theirs(receiver)}
            </th>
          </tr>
        </thead>
        <tbody>
          {tray.lines.map((line) => (
            <tr key={line.lineId}>
              <th scope="row">
                {line.name} <LinePlace line={line} />
              </th>
              <td className="n">{line.given ?? '–'}</td>
              <td
                className={line.counted !== null && line.given !== null && line.counted !== line.given ? 'n hot' : 'n'}
              >
                {line.counted ?? '–'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </li>
  );
}

/** The giver's side: who is counting, what they found so far, and the way back. Others only look. */
export function Waiting({ handover }: { readonly handover: Handover }) {
  const words = useWords().handover;
  const { person } = useSession();
  const writing = useWrite();
  const { giver, receiver, trays } = handover;
  const own = giver.id === person.id;
  const counted = trays.filter((tray) => tray.counted).length;
  return (
    <>
      <div>
        <h2>{words.waiting(receiver.name)}</h2>
        <p>{own ? words.waitingWhy(receiver.name) : words.othersWaiting(giver.name, receiver.name)}</p>
        {trays.length === 0 ? null : (
          <p className="note" role="status">
            {words.countedOf(counted, trays.length)}
          </p>
        )}
      </div>
      <ol className="trays-to-count">
        {trays.map((tray) => (
          <TrayGiven key={tray.trayId} tray={tray} receiver={receiver.name} />
        ))}
      </ol>
      {own ? (
        <div className="answer">
          <Refusal error={writing.error} />
          <div className="hands-acts">
            <Button
              big
              disabled={writing.busy}
              onClick={() => writing.write({ path: `/handovers/${handover.id}/withdraw` })}
            >
              {words.withdraw}
            </Button>
          </div>
        </div>
      ) : null}
    </>
  );
}
