import type { Opening } from '#contracts/openings.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

/** Rags and plugs that were put in: each is on the tally and has to come out before the engine is closed. */
export function RagPanel({ opening }: { readonly opening: Opening }) {
  const { rag: words } = useWords().procedure;
  const writing = useWrite();
  const lines = opening.pieces.filter(({ fromWhere }) => fromWhere === words.putIn);
  const inside = lines.filter(({ loose }) => (loose ?? 0) > 0);
  const path = `/openings/${opening.id}/pieces`;
  const putIn = (name: string) => {
    const known = lines.find((line) => line.name === name && !line.hidden && line.tray === null);
    const piece =
      known === undefined
        ? { byHand: { name, fromWhere: words.putIn, why: words.why }, count: 1 }
        : { pieceId: known.id, count: 1 };
    writing.write({ path: `${path}/off`, body: { pieces: [piece], reason: words.another } });
  };
  const takeOut = (pieceId: string) =>
    writing.write({ path: `${path}/accounted`, body: { pieces: [{ pieceId, count: 1 }], reason: words.tookOut } });
  return (
    <section className="rags" aria-label={words.title}>
      <h2>{words.title}</h2>
      {inside.length === 0 ? <p className="note">{words.none}</p> : null}
      <ul>
        {inside.map(({ id, name, loose }) => (
          <li key={id}>
            <b>{words.item(loose ?? 0, name)}</b>
            <Button big disabled={writing.busy} aria-label={words.out(name)} onClick={() => takeOut(id)}>
              {words.isOut}
            </Button>
          </li>
        ))}
      </ul>
      <div className="hands-acts">
        <Button big disabled={writing.busy} onClick={() => putIn(words.rag)}>
          {words.ragIn}
        </Button>
        <Button big disabled={writing.busy} onClick={() => putIn(words.plug)}>
          {words.plugIn}
        </Button>
      </div>
      <Refusal error={writing.error} />
    </section>
  );
}
