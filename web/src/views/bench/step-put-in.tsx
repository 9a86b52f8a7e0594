import type { Opening } from '#contracts/openings.ts';
import type { RunStep } from '#contracts/procedure-runs.ts';
import { putInKindOf } from '#domain/tally/put-in-kind.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

/** How many of it are inside now. */
const inside = (opening: Opening, of: { readonly name: string; readonly where: string }): number =>
  opening.putIn
    .filter(({ name, where }) => name === of.name && where === of.where)
    .reduce((sum, { stillIn }) => sum + stillIn, 0);

/** Rags and plugs this step puts in: each is counted as put in, and has to come out before the engine is closed. */
export function StepPutIn({ step, opening }: { readonly step: RunStep; readonly opening: Opening }) {
  const { rag: words } = useWords().procedure;
  const writing = useWrite();
  if (step.putIn.length === 0) return null;
  return (
    <section className="step-put-in" aria-label={words.here}>
      <h2>{words.here}</h2>
      <ul>
        {step.putIn.map(({ name, count, where }) => (
          <li key={`${name}, ${where}`}>
            <b>{words.item(count, name, where)}</b>
            {inside(opening, { name, where }) >= count ? (
              <span>{words.isIn}</span>
            ) : (
              <Button
                big
                disabled={writing.busy}
                aria-label={`${words.putIn}: ${name}, ${where}`}
                onClick={() =>
                  writing.write({
                    path: `/openings/${opening.id}/put-in`,
                    body: { kind: putInKindOf(name), name, where, count },
                  })
                }
              >
                {words.putIn}
              </Button>
            )}
          </li>
        ))}
      </ul>
      <Refusal error={writing.error} />
    </section>
  );
}
