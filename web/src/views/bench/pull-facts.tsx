import type { FastenerSetStanding, LogPull } from '#contracts/assembly.ts';
import { dropEntry, type Entry } from '../../app/outbox.ts';
import { Button } from '../../kit/button.tsx';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import type { SetNow } from './pulling.ts';

/** Which stage, how far, which bolt next and then. */
export function PullFacts({ set, now }: { readonly set: FastenerSetStanding; readonly now: SetNow }) {
  const { assemble } = useWords();
  const words = assemble.fasteners;
  return (
    <dl className="pull-facts">
      {now.stages.map((stage) => {
        const here = stage.ordinal === now.next?.stage.ordinal;
        return (
          <div key={stage.ordinal} className={here ? 'here' : undefined}>
            <dt>
              {words.stage(stage.ordinal, now.stages.length)} <b className="num">{quantityText(stage.figure)}</b>
            </dt>
            <dd>
              {words.atStage(stage.done.length, set.positions.length)}
              {here && now.next !== undefined ? (
                <b>
                  {'. '}
                  {words.next(now.next.fastener)}
                  {now.afterNext === undefined ? '' : words.thenNext(now.afterNext)}
                </b>
              ) : null}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

/** Thread, grade, condition, tool, what may be used again, and where the figures are from. */
export function SetFacts({ set }: { readonly set: FastenerSetStanding }) {
  const { assemble } = useWords();
  const words = assemble.fasteners;
  return (
    <p className="note">
      {words.facts(set.thread, set.propertyClass)}
      {set.tool === '' ? '' : `. ${words.tool(set.tool)}`}
      {set.reuse === '' ? '' : `. ${words.reuse[set.reuse] ?? set.reuse}`}
      {set.torqueToYield ? `. ${words.toYield}` : ''}
      {`. ${set.orderIsMakers ? words.ordered.makers : words.ordered.generated}`}
      {set.source === '' ? '' : `. ${words.makers(set.source)}`}
    </p>
  );
}

/** Pulls the server refused: said beside what they were, until they are pulled again. */
export function RefusedPulls({
  set,
  entries,
}: {
  readonly set: FastenerSetStanding;
  readonly entries: readonly Entry[];
}) {
  const { assemble } = useWords();
  const words = assemble.fasteners;
  return entries.map((entry) => {
    if (entry.kind !== 'pull' || entry.refusal === null) return null;
    const pull = entry.body as LogPull;
    if (pull.set !== set.code) return null;
    return (
      <div key={entry.key} className="mend" role="alert">
        <h3>{words.refused(pull.fastener, quantityText(pull.value))}</h3>
        <p>{entry.refusal.detail}</p>
        <div className="mend-acts">
          <Button onClick={() => dropEntry(entry.key)}>{words.drop}</Button>
        </div>
      </div>
    );
  });
}
