import { useState } from 'react';
import type { Tray } from '#contracts/custody.ts';
import type { Opening, TallyPiece } from '#contracts/openings.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { BackLines, ENGINE, lyingIn, useChosen } from './back-lines.tsx';
import type { Counts } from './counts.ts';

type Mode = 'fitted' | 'renewed' | 'accounted';

interface PutBackProps {
  readonly opening: Opening;
  readonly counts: Counts;
  /** The job's trays, to name them by what is in them. */
  readonly trays: readonly Tray[];
  /** Pieces the step names: they come first. */
  readonly stepPieces: readonly string[];
}

const looseOf = ({ loose, hidden }: TallyPiece): number => (hidden ? 0 : (loose ?? 0));

const fits = (piece: TallyPiece, mode: Mode): boolean =>
  looseOf(piece) > 0 && !(mode === 'fitted' && piece.oneTime) && !(mode === 'accounted' && piece.layer !== null);

function SplitSets({ opening }: { readonly opening: Opening }) {
  const { back: words } = useWords().procedure;
  return opening.brokenSets.map(({ matchedSet, fitted, renewed }) => (
    <p key={matchedSet} className="hands-stop" role="alert">
      {words.broken(matchedSet, fitted.join(', '), renewed.join(', '))}
    </p>
  ));
}

/** What of the tally goes back on with this step: the same, new in its stead, or accounted for elsewhere. */
export function PutBack({ opening, counts, trays, stepPieces }: PutBackProps) {
  const { back: words } = useWords().procedure;
  const [mode, setMode] = useState<Mode>('fitted');
  const [from, setFrom] = useState<string | null>(null);
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const loose = opening.pieces.filter((piece) => looseOf(piece) > 0);
  const groups = [
    ...new Map(loose.flatMap(({ lying }) => lying).map(({ tray }) => [tray?.id ?? ENGINE, tray])).entries(),
  ];
  const group = groups.find(([id]) => id === from) ?? groups[0];
  const chosen = useChosen(opening, counts, group?.[0]);
  const { done: scan } = useWords().scan;
  useScan((scanned) => {
    if (scanned.kind !== 'rack') return undefined;
    if (scanned.job.id !== opening.jobId) return { did: scan.rackOtherJob(scanned.job.number), amiss: true };
    const whole = chosen.wholeOf(scanned.id);
    if (whole === undefined) return { did: scan.rackEmpty, amiss: true };
    const before = from;
    setFrom(whole.from);
    chosen.choose(scanned.id, whole.places);
    const undo = () => {
      setFrom(before);
      chosen.choose(scanned.id, new Set());
    };
    return { did: scan.rackBack(whole.places.size), undo };
  });
  const named = (piece: TallyPiece) => stepPieces.includes(piece.name);
  const pieces = loose
    .filter((piece) => lyingIn(piece, group?.[0]) > 0 && fits(piece, mode))
    .toSorted((a, b) => Number(named(b)) - Number(named(a)));
  const sum = pieces.reduce((total, { id }) => total + chosen.countOf(id), 0);
  const left = loose.reduce((total, piece) => total + looseOf(piece), 0);
  const ready = sum > 0 && !writing.busy && (mode !== 'accounted' || reason.trim() !== '');
  const asked = ({ id: pieceId }: TallyPiece) => {
    const count = chosen.countOf(pieceId);
    const places = [...chosen.placesOf(pieceId)];
    if (count === 0) return [];
    return [{ pieceId, count, fromTrayId: group?.[1]?.id ?? null, ...(places.length === 0 ? {} : { places }) }];
  };
  const go = () =>
    writing.write(
      {
        path: `/openings/${opening.id}/pieces/${mode}`,
        body: { pieces: pieces.flatMap(asked), ...(mode === 'accounted' ? { reason: reason.trim() } : {}) },
      },
      () => {
        chosen.clear(pieces);
        setReason('');
      },
    );
  return (
    <section className="count-off" aria-label={words.title}>
      <h2>{words.title}</h2>
      <SplitSets opening={opening} />
      <p className="note">{words.left(left)}</p>
      {loose.length === 0 ? null : (
        <>
          {groups.length < 2 ? null : (
            <Choice
              label={words.from}
              value={group?.[0] ?? null}
              onChange={setFrom}
              options={groups.map(([id, tray]) => ({
                value: id,
                label: tray?.name ?? words.withEngine,
                note: trays.find((each) => each.id === id)?.name ?? '',
              }))}
            />
          )}
          <Choice
            label={words.how}
            value={mode}
            onChange={setMode}
            options={[
              { value: 'fitted', label: words.modes.fitted },
              { value: 'renewed', label: words.modes.renewed },
              { value: 'accounted', label: words.modes.accounted },
            ]}
          />
          {pieces.length === 0 ? (
            <p className="note">{mode === 'accounted' ? words.noneAccounted : words.none}</p>
          ) : null}
          <BackLines
            pieces={pieces}
            counts={counts}
            chosen={chosen}
            disabled={writing.busy}
            from={group?.[0]}
            stepPieces={stepPieces}
          />
          {mode === 'accounted' && pieces.length > 0 ? (
            <Field label={words.reason} big>
              {(input) => (
                <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
              )}
            </Field>
          ) : null}
          <Refusal error={writing.error} />
          <Button big kind="main" disabled={!ready} onClick={go}>
            {words.go[mode](sum)}
          </Button>
        </>
      )}
    </section>
  );
}
