import type { Opening } from '#contracts/openings.ts';
import type { RunStep } from '#contracts/procedures.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

/** Rags and plugs this step puts in: each goes onto the tally, and has to come out before the engine is closed. */
export function StepPutIn({ step, opening }: { readonly step: RunStep; readonly opening: Opening }) {
  const { rag: words } = useWords().procedure;
  const writing = useWrite();
  if (step.putIn.length === 0) return null;
  return (
    <section className="step-put-in" aria-label={words.here}>
      <h2>{words.here}</h2>
      <ul>
        {step.putIn.map(({ name, count, where }) => {
          const full = `${name}, ${where}`;
          const line = opening.pieces.find((piece) => piece.fromWhere === words.putIn && piece.name === full);
          const inside = (line?.loose ?? 0) >= count;
          const piece =
            line === undefined
              ? { byHand: { name: full, fromWhere: words.putIn, why: words.why }, count }
              : { pieceId: line.id, count };
          return (
            <li key={full}>
              <b>{words.item(count, full)}</b>
              {inside ? (
                <span>{words.isIn}</span>
              ) : (
                <Button
                  big
                  disabled={writing.busy}
                  aria-label={`${words.itIsIn}: ${full}`}
                  onClick={() =>
                    writing.write({
                      path: `/openings/${opening.id}/pieces/off`,
                      body: { pieces: [piece], reason: words.another },
                    })
                  }
                >
                  {words.itIsIn}
                </Button>
              )}
            </li>
          );
        })}
      </ul>
      <Refusal error={writing.error} />
    </section>
  );
}
