import { useId } from 'react';
import { levelName } from '../bore-facts.ts';
import { at } from '../coordinates.ts';
import { Drawing } from '../drawing.tsx';
import { Hatch } from '../hatch.tsx';
import { type FormatNumber, plainNumber } from '../number-format.ts';
import { type DrawingWords, englishWords } from '../words.ts';
import { BorePosition, heightInBarrel } from './bore-position.tsx';
import { FlatnessPosition } from './flatness-position.tsx';
import { PinPosition } from './pin-position.tsx';
import { PistonPosition } from './piston-position.tsx';
import type { PositionFacts, PositionLettering } from './position-facts.ts';
import { RingGapPosition } from './ring-gap-position.tsx';

export type PositionPictureProps = {
  readonly facts: PositionFacts;
  readonly decimals?: number;
  readonly format?: FormatNumber;
  readonly width?: number;
  /** For phones: only the level asked for, so that the pad stays in reach. */
  readonly cropped?: boolean;
  readonly words?: DrawingWords;
};

type Sheet = readonly [x: number, y: number, width: number, height: number];

const sheets: Readonly<Record<PositionFacts['kind'], Sheet>> = {
  bore: [16, 24, 510, 566],
  piston: [40, 110, 460, 410],
  flatness: [30, 60, 480, 480],
  'ring-gap': [16, 70, 470, 480],
  pin: [12, 140, 516, 286],
};

function whatAndWhere(
  facts: PositionFacts,
  length: (mm: number) => string,
  words: DrawingWords,
): [string, string | null] {
  const { position, bore } = words;
  switch (facts.kind) {
    case 'bore': {
      const level = facts.active === null ? undefined : facts.levels[facts.active.level];
      if (facts.active === null || level === undefined) return [position.bore, null];
      return [position.bore, `${levelName(facts.active.level)}, ${length(level.height)}, ${bore[facts.active.axis]}`];
    }
    case 'piston':
      return [position.piston, facts.active ? length(facts.heightAboveSkirt) : null];
    case 'flatness':
      return [position.flatness, facts.active === null ? null : String(facts.active + 1)];
    case 'ring-gap':
      return [position.ringGap, facts.active ? length(facts.depth) : null];
    case 'pin':
      return [position.pin, facts.active === null ? null : (facts.places[facts.active]?.name ?? null)];
  }
}

function Picture({
  facts,
  lettering,
  pattern,
}: {
  readonly facts: PositionFacts;
  readonly lettering: PositionLettering;
  readonly pattern: string;
}) {
  switch (facts.kind) {
    case 'bore':
      return <BorePosition facts={facts} lettering={lettering} pattern={pattern} />;
    case 'piston':
      return <PistonPosition facts={facts} lettering={lettering} />;
    case 'flatness':
      return <FlatnessPosition facts={facts} lettering={lettering} />;
    case 'ring-gap':
      return <RingGapPosition facts={facts} lettering={lettering} pattern={pattern} />;
    case 'pin':
      return <PinPosition facts={facts} lettering={lettering} />;
  }
}

/** The whole sheet, or a strip of the barrel around the level asked for. */
function sheetOf(facts: PositionFacts, cropped: boolean): Sheet {
  const level = facts.kind === 'bore' && facts.active !== null ? facts.levels[facts.active.level] : undefined;
  if (!cropped || facts.kind !== 'bore' || level === undefined) return sheets[facts.kind];
  const [x, , width] = sheets.bore;
  return [x, at(heightInBarrel(facts, level.height) - 56), width, 112];
}

/** Where the reading is taken: every place of the dimension, the one asked for now heavy. */
export function PositionPicture({
  facts,
  cropped = false,
  decimals = 3,
  format = plainNumber,
  width,
  words = englishWords,
}: PositionPictureProps) {
  const id = useId();
  const length = (mm: number) => `${format(mm, Number.isInteger(mm) ? 0 : 1)} mm`;
  const letter = (value: number | null) =>
    value === null || !Number.isFinite(value) ? words.position.none : format(value, decimals);
  const [what, where] = whatAndWhere(facts, length, words);
  const sheet = sheetOf(facts, cropped);
  const shown = width ?? sheet[2];
  return (
    <Drawing
      className={cropped ? 'position cropped' : 'position'}
      label={where === null ? words.position.allDone(what) : words.position.asked(what, where)}
      viewBox={sheet}
      width={shown}
      height={at((shown * sheet[3]) / sheet[2])}
    >
      <defs>
        <Hatch id={`${id}cut`} pitch={8} line={0.9} />
      </defs>
      <Picture facts={facts} lettering={{ letter, length, words }} pattern={`${id}cut`} />
    </Drawing>
  );
}
