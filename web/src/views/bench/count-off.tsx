import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { Opening, TallyChange } from '#contracts/openings.ts';
import type { RunPiece, RunStep } from '#contracts/procedure-runs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { PiecePhoto } from '../photos/piece-photo.tsx';
import { CountLines } from './counting.tsx';
import { sumOf } from './counts.ts';
import { asksWhich, isSaid, type OffPlaces, OffPlacesChoice } from './off-places.tsx';
import type { TallyAtHand } from './tally-at-hand.ts';
import { TrayChoice, WITH_ENGINE } from './tray-choice.tsx';

interface CountOffProps {
  readonly jobId: string;
  readonly step: RunStep;
  readonly opening: Opening | null;
  readonly tally: TallyAtHand;
  readonly stopped: boolean;
}

function Counted({ opening, pieces }: { readonly opening: Opening; readonly pieces: readonly RunPiece[] }) {
  const { procedure: words, tally } = useWords();
  return (
    <ul className="counted">
      {pieces.map(({ id, name, off, expected, short, places }) => {
        const inside = off === null || short === null ? 0 : Math.max(0, expected - off - short);
        const piece = opening.pieces.find(({ stepPieceId }) => stepPieceId === id);
        return (
          <li key={id}>
            <span>{name}</span>
            {off === null ? (
              <span className="note">{words.count.hidden}</span>
            ) : (
              <b className={short !== null && short > 0 ? 'hot num' : 'num'}>{words.count.counted(off, expected)}</b>
            )}
            {inside === 0 ? null : <b className="hot">{words.count.inside(inside)}</b>}
            {piece === undefined || places.length === 0 ? null : (
              <Link to="/racks/$rackId" params={{ rackId: piece.id }}>
                {tally.rack.openRack}
              </Link>
            )}
            {piece === undefined ? null : <PiecePhoto opening={opening} piece={piece} />}
          </li>
        );
      })}
    </ul>
  );
}

function OpenEngine({ jobId }: { readonly jobId: string }) {
  const { opening: words } = useWords().procedure;
  const writing = useWrite();
  return (
    <section className="open-engine">
      <h2>{words.title}</h2>
      <p>{words.why}</p>
      <Button
        big
        kind="main"
        disabled={writing.busy}
        onClick={() => writing.write({ path: `/jobs/${jobId}/openings` })}
      >
        {words.open}
      </Button>
      <Refusal error={writing.error} />
    </section>
  );
}

interface LeftToCountProps extends Omit<CountOffProps, 'opening' | 'stopped'> {
  readonly opening: Opening;
  readonly pieces: readonly RunPiece[];
}

/** A piece as it is told from its like: where it sits, why so many. */
function PieceNote({ piece }: { readonly piece: RunPiece }) {
  const words = useWords();
  const { fromWhere, why, oneTime, matchedSet, expected } = piece;
  const facts = [
    words.myBench.counting.expected(expected),
    ...(fromWhere === '' ? [] : [fromWhere]),
    ...(oneTime ? [words.procedure.oneTime] : []),
    ...(matchedSet === null ? [] : [words.procedure.matched(matchedSet)]),
  ];
  return (
    <>
      {facts.join(' · ')}
      {why === '' ? null : <span className="piece-why">{words.procedure.why(why)}</span>}
    </>
  );
}

function LeftToCount({ jobId, opening, pieces, tally }: LeftToCountProps) {
  const { count: words } = useWords().procedure;
  const { trays, trayId, onTray, counts } = tally;
  const writing = useWrite<TallyChange>();
  const [reason, setReason] = useState('');
  const [from, setFrom] = useState<Readonly<Record<string, OffPlaces>>>({});
  const tray = trays.find(({ id }) => id === trayId);
  const many = pieces.some(({ id, expected }) => counts.of(id) > expected);
  const short = pieces.filter(({ id, expected }) => counts.of(id) < expected);
  const sum = sumOf(counts, pieces);
  const begun = sum > 0;
  const placed = trayId === WITH_ENGINE || tray !== undefined;
  const told = pieces.filter(({ id }) => counts.of(id) > 0);
  const ready =
    placed &&
    !writing.busy &&
    !(many && reason.trim() === '') &&
    pieces.every((piece) => isSaid(piece, counts, from[piece.id]));
  const lineOf = (piece: RunPiece) => {
    const said = from[piece.id];
    const named = asksWhich(piece, counts) && said !== undefined && said !== 'not known';
    return { stepPieceId: piece.id, count: counts.of(piece.id), ...(named ? { places: [...said] } : {}) };
  };
  const go = (which: readonly RunPiece[]) =>
    writing.write({
      path: `/openings/${opening.id}/pieces/off`,
      body: {
        pieces: which.map(lineOf),
        ...(tray === undefined ? {} : { trayId: tray.id }),
        ...(reason.trim() === '' ? {} : { reason: reason.trim() }),
      },
    });
  return (
    <>
      <CountLines
        label={words.title}
        counts={counts}
        disabled={writing.busy}
        lines={pieces.map((piece) => ({
          id: piece.id,
          name: piece.name,
          all: piece.expected,
          note: <PieceNote piece={piece} />,
        }))}
      />
      {pieces.map((piece) => (
        <OffPlacesChoice
          key={piece.id}
          piece={piece}
          counts={counts}
          said={from[piece.id]}
          disabled={writing.busy}
          onSay={(said) => setFrom((before) => ({ ...before, [piece.id]: said }))}
        />
      ))}
      <TrayChoice jobId={jobId} trays={trays} chosen={trayId} onChoose={onTray} />
      {many ? (
        <Field label={words.more} big>
          {(input) => (
            <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
      ) : null}
      {begun && short.length > 0 ? (
        <p className="hot" role="status">
          {words.short(short.map(({ id, name, expected }) => words.shortOf(expected - counts.of(id), name)).join(', '))}
        </p>
      ) : null}
      <Refusal error={writing.error} />
      <div className="hands-acts">
        <Button big kind="main" disabled={!ready} onClick={() => go(pieces)}>
          {placed ? words.go(sum, tray?.label ?? null) : words.chooseTray}
        </Button>
        {placed && begun && told.length < pieces.length ? (
          // A head goes into a tray of its own, its bolts into another: nothing of the rest is short yet.
          <Button big disabled={!ready} onClick={() => go(told)}>
            {words.goFirst(sum, tray?.label ?? null)}
          </Button>
        ) : null}
      </div>
    </>
  );
}

/** The pieces this step takes off: counted into a tray or kept with the engine. */
export function CountOff({ jobId, step, opening, tally, stopped }: CountOffProps) {
  const { count: words } = useWords().procedure;
  const left = step.pieces.filter(({ counted }) => !counted);
  const counted = step.pieces.filter((piece) => piece.counted);
  const { done: scan } = useWords().scan;
  useScan((scanned) => {
    if (scanned.kind !== 'rack') return undefined;
    if (scanned.job.id !== jobId) return { did: scan.rackOtherJob(scanned.job.number), amiss: true };
    return counted.some(({ pieceId }) => pieceId === scanned.id) ? { did: scan.rackWhole } : undefined;
  });
  if (opening === null) return left.length === 0 ? null : <OpenEngine jobId={jobId} />;
  return (
    <section className="count-off" aria-label={words.title}>
      <h2>{words.title}</h2>
      {counted.length === 0 ? null : <Counted opening={opening} pieces={counted} />}
      {left.length === 0 || stopped ? null : (
        <LeftToCount jobId={jobId} step={step} opening={opening} pieces={left} tally={tally} />
      )}
    </section>
  );
}
