import { useState } from 'react';
import type { Opening, TallyChange } from '#contracts/openings.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { WITH_ENGINE } from './tray-choice.tsx';

const answers = ['found', 'never-there', 'possibly-inside'] as const;
type AnswerKind = (typeof answers)[number];

/** A piece that is short: of the step at hand, of another step, or counted by hand. */
export interface MissingPiece {
  readonly pieceId: string;
  readonly name: string;
  readonly expected: number;
  readonly off: number;
  readonly short: number;
}

/** What stops the work: counted, missing, and not declared. Whichever procedure counted it. */
export const missingOf = ({ pieces }: Opening): readonly MissingPiece[] =>
  pieces.flatMap(({ id: pieceId, name, expected, off, missing, inside }) => {
    const short = (missing ?? 0) - (inside ?? 0);
    return short > 0 && expected !== null && off !== null ? [{ pieceId, name, expected, off, short }] : [];
  });

interface StopPanelProps {
  readonly piece: MissingPiece;
  readonly opening: Opening;
  /** Where pieces go now, if that was said. */
  readonly trayId: string | null;
}

/** A found piece joins the others: the tray they lie in, else the one in use. */
function trayFor({ piece, opening, trayId }: StopPanelProps): string | undefined {
  const line = opening.pieces.find(({ id }) => id === piece.pieceId);
  if (line?.lying[0] !== undefined) return line.lying[0].tray?.id;
  return trayId === null || trayId === WITH_ENGINE ? undefined : trayId;
}

function AnswerForm({ kind, back, ...of }: StopPanelProps & { readonly kind: AnswerKind; readonly back: () => void }) {
  const { stop: words } = useWords().procedure;
  const { piece, opening } = of;
  const most = piece.short;
  const [count, setCount] = useState(most);
  const [reason, setReason] = useState('');
  const writing = useWrite<TallyChange>();
  const ready = reason.trim() !== '' && count > 0 && !writing.busy;
  const tray = kind === 'found' ? trayFor(of) : undefined;
  return (
    <form
      className="hands-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        const body = {
          pieces: [{ pieceId: piece.pieceId, count }],
          reason: reason.trim(),
          ...(tray === undefined ? {} : { trayId: tray }),
        };
        writing.write({ path: `/openings/${opening.id}/pieces/${kind}`, body }, back);
      }}
    >
      {most === 1 ? null : (
        <div className="count-how">
          <b>{words.how[kind]}</b>
          <Stepper label={words.how[kind]} value={count} min={1} max={most} onChange={setCount} />
        </div>
      )}
      <Field label={words.reason[kind]} big>
        {(input) => (
          <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <div className="quick">
        {words.quick[kind].map((quick) => (
          <Button key={quick} big aria-pressed={reason === quick} onClick={() => setReason(quick)}>
            {quick}
          </Button>
        ))}
      </div>
      <Refusal error={writing.error} />
      <div className="hands-acts">
        <Button type="submit" big kind="main" disabled={!ready}>
          {words.say[kind]}
        </Button>
        <Button big onClick={back}>
          {words.back}
        </Button>
      </div>
    </form>
  );
}

/** A piece is short, so the work stands still: it is found, was never there, or may be inside. */
export function StopPanel(props: StopPanelProps) {
  const { stop: words } = useWords().procedure;
  const { piece } = props;
  const [kind, setKind] = useState<AnswerKind | null>(null);
  const { done: scan } = useWords().scan;
  useScan((scanned) => {
    if (scanned.kind !== 'rack' || scanned.id !== piece.pieceId) return undefined;
    const before = kind;
    setKind('found');
    return { did: scan.rackFound, undo: () => setKind(before) };
  });
  const label = { found: words.found, 'never-there': words.neverThere, 'possibly-inside': words.inside };
  return (
    <section className="hands-stop stop-panel" role="alert">
      <h2>
        {words.title}: {words.missing(piece.short, piece.name)}
      </h2>
      <p>{words.may(piece.off, piece.expected)}</p>
      {kind === null ? (
        <div className="hands-acts">
          {answers.map((answer) => (
            <Button key={answer} big kind={answer === 'found' ? 'main' : 'plain'} onClick={() => setKind(answer)}>
              {label[answer]}
            </Button>
          ))}
        </div>
      ) : (
        <AnswerForm {...props} kind={kind} back={() => setKind(null)} />
      )}
    </section>
  );
}
