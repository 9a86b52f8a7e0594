import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Opening, TallyPiece } from '#contracts/openings.ts';
import { useWords } from '../../words/words.tsx';
import { CountLines } from './counting.tsx';
import type { Counts } from './counts.ts';
import { RackChoice } from './rack-choice.tsx';
import { liesIn, type Within } from './rack-wells.ts';
import { racksQuery } from './tally-queries.ts';

/** Stands for beside the engine among the trays. */
export const ENGINE = 'engine';
const nothing: ReadonlySet<string> = new Set();

/** So many of a line lie in one tray, or beside the engine. */
export const lyingIn = ({ lying, hidden }: TallyPiece, place: string | undefined): number =>
  hidden ? 0 : (lying.find(({ tray }) => (tray?.id ?? ENGINE) === place)?.count ?? 0);

/** What is chosen to go back: so many of a line, or the pieces in some places of its rack. */
export function useChosen(opening: Opening, counts: Counts, from: string | undefined) {
  const within: Within = from === ENGINE ? null : from;
  const racks = useQuery(racksQuery(opening)).data?.items ?? [];
  const [places, setPlaces] = useState<Readonly<Record<string, ReadonlySet<string>>>>({});
  /** A line whose places are known is chosen by place; one that lies in no place yet is counted. */
  const rackOf = (id: string) =>
    racks.find(({ pieceId, places: all }) => pieceId === id && all.some((place) => liesIn(place, within)));
  const placesOf = (id: string) => (rackOf(id) === undefined ? nothing : (places[id] ?? nothing));
  return {
    rackOf,
    placesOf,
    countOf: (id: string) => (rackOf(id) === undefined ? counts.of(id) : placesOf(id).size),
    choose: (id: string, chosen: ReadonlySet<string>) => setPlaces((before) => ({ ...before, [id]: chosen })),
    /** All of a rack that lies together, in the first tray that has any of it; undefined: nothing lies in it. */
    wholeOf: (id: string) => {
      const filled =
        racks.find(({ pieceId }) => pieceId === id)?.places.filter(({ filled: lies }) => lies === true) ?? [];
      const [first] = filled;
      if (first === undefined) return undefined;
      const tray = first.tray?.id ?? null;
      const places = new Set(filled.filter((place) => liesIn(place, tray)).map(({ code }) => code));
      return { from: tray ?? ENGINE, places };
    },
    clear: (pieces: readonly TallyPiece[]) => {
      for (const { id } of pieces) counts.set(id, 0);
      setPlaces({});
    },
  };
}

type ChosenPieces = ReturnType<typeof useChosen>;

interface BackLinesProps {
  readonly pieces: readonly TallyPiece[];
  readonly counts: Counts;
  readonly chosen: ChosenPieces;
  readonly disabled: boolean;
  /** The tray they come out of, or the engine they lie with. */
  readonly from: string | undefined;
  readonly stepPieces: readonly string[];
}

/** The lines that can go back: those kept in order by their places, the others by number. */
export function BackLines({ pieces, counts, chosen, disabled, from, stepPieces }: BackLinesProps) {
  const { back: words } = useWords().procedure;
  const noteOf = (piece: TallyPiece) =>
    [
      ...(stepPieces.includes(piece.name) ? [words.thisStep] : []),
      words.loose(lyingIn(piece, from)),
      ...(piece.fromWhere === '' ? [] : [piece.fromWhere]),
    ].join(' · ');
  const counted = pieces.filter(({ id }) => chosen.rackOf(id) === undefined);
  return (
    <>
      {pieces.map((piece) => {
        const rack = chosen.rackOf(piece.id);
        return rack === undefined ? null : (
          <RackChoice
            key={piece.id}
            rack={rack}
            note={noteOf(piece)}
            within={from === ENGINE ? null : from}
            chosen={chosen.placesOf(piece.id)}
            disabled={disabled}
            onChoose={(places) => chosen.choose(piece.id, places)}
          />
        );
      })}
      <CountLines
        label={words.title}
        counts={counts}
        disabled={disabled}
        lines={counted.map((piece) => ({
          id: piece.id,
          name: piece.name,
          all: lyingIn(piece, from),
          most: lyingIn(piece, from),
          note: noteOf(piece),
        }))}
      />
    </>
  );
}
