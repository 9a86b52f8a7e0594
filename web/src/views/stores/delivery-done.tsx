import type { DeliveryTaken } from '#contracts/deliveries.ts';
import type { LabelAsked } from '#contracts/labels.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';
import { HeldUntil, MoreWait, Waiting } from './goods-taken.tsx';

const mostCopies = 50;

/** One label a piece of each part that came. */
function labelsOf({ lines }: DeliveryTaken): readonly LabelAsked[] {
  const counts = new Map<string, number>();
  for (const { part, onHand } of lines) counts.set(part.id, (counts.get(part.id) ?? 0) + onHand);
  return [...counts].map(([id, count]) => ({ kind: 'part', id, copies: Math.min(count, mostCopies) }));
}

/** What became of a delivery: where it lies, who got it, who still waits, what it cost, and its labels. */
export function DeliveryDone({ taken, onNext }: { readonly taken: DeliveryTaken; readonly onNext: () => void }) {
  const { receive: words } = useWords().storesDesks;
  const { receiveDialog } = useWords().stores;
  const format = useFormat();
  const labels = labelsOf(taken);
  return (
    <section className="delivery-done" role="status">
      <h2>{words.done}</h2>
      {taken.lines.length === 0 ? <p>{words.allAside}</p> : null}
      <ul>
        {taken.lines.map((line) => {
          const { goods, freight, landed, reservedFor, saidNo, coresOwed } = line;
          return (
            <li key={line.lotId}>
              <p>
                <b>{words.doneLine(line.onHand, line.part.name, line.bin.name)}</b>{' '}
                <span className="num note">{line.part.number}</span>
              </p>
              {reservedFor === null ? null : (
                <p className="went-to">
                  {words.reserved(
                    reservedFor.quantity,
                    `${reservedFor.job.number}, ${reservedFor.job.family} ${reservedFor.job.serial}`,
                  )}{' '}
                  <HeldUntil until={reservedFor.until} />
                </p>
              )}
              {saidNo === null ? null : <p>{receiveDialog.saidNo(`${saidNo.family} ${saidNo.serial}`)}</p>}
              <p className="note">
                {[
                  words.free(line.available),
                  ...(goods === null || freight === null || landed === null
                    ? []
                    : [words.doneCost(format.money(goods), format.money(freight), format.money(landed))]),
                  ...(coresOwed > 0 ? [words.cores(coresOwed)] : []),
                ].join('; ')}
              </p>
              {line.waiting.length === 0 ? null : (
                <div className="form">
                  <h3>{receiveDialog.waiting}</h3>
                  <ul className="waiting">
                    {line.waiting.map(({ job, demandLineId, short, askedUntil }) => (
                      <Waiting
                        key={demandLineId}
                        said={receiveDialog.waitingFor(`${job.family} ${job.serial}`, short)}
                        jobId={job.id}
                        lineId={demandLineId}
                        askedUntil={askedUntil}
                        free={line.available > 0}
                      />
                    ))}
                  </ul>
                  <MoreWait shown={line.waiting.length} of={line.waitingTotal} />
                </div>
              )}
            </li>
          );
        })}
      </ul>
      <div className="kit-acts">
        {labels.length === 0 ? null : <LabelButton labels={labels} />}
        <Button kind="main" onClick={onNext}>
          {words.next}
        </Button>
      </div>
    </section>
  );
}
