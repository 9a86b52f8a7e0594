import { useId } from 'react';
import { BoreBarrel } from './bore-barrel.tsx';
import { type BoreLayout, type BoreLevel, type BoreResult, isReading, levelName } from './bore-facts.ts';
import { BoreForm } from './bore-form.tsx';
import { BoreRounds } from './bore-rounds.tsx';
import { Drawing } from './drawing.tsx';
import { Hatch } from './hatch.tsx';
import { type FormatNumber, plainNumber } from './number-format.ts';
import { type DrawingWords, englishWords } from './words.ts';

export type BoreMapProps = {
  /** From the deck down. */
  readonly levels: readonly BoreLevel[];
  readonly nominal: number;
  readonly limit?: number | null;
  readonly result: BoreResult;
  /** Depth of the barrel below the deck, mm; without it, somewhat below the lowest level. */
  readonly barrelDepth?: number;
  readonly decimals?: number;
  readonly format?: FormatNumber;
  readonly height?: number;
  /** For phones: without the views from above. */
  readonly narrow?: boolean;
  readonly words?: Pick<DrawingWords, 'bore'>;
};

function layoutOf(props: BoreMapProps, height: number): BoreLayout {
  const top = 64;
  const depth = height - 134;
  const lowest = Math.max(...props.levels.map((level) => level.height), 1);
  const barrel = Math.max(props.barrelDepth ?? lowest * 1.43, lowest);
  const placed = { top, depth, heightAt: (mm: number) => top + (mm / barrel) * depth };
  return props.narrow
    ? { ...placed, centre: 88, radius: 42, wall: 18, formLeft: 228, formWidth: 124, roundsCentre: 0 }
    : { ...placed, centre: 118, radius: 52, wall: 24, formLeft: 300, formWidth: 140, roundsCentre: 532 };
}

/** The cylinder's readings at their heights and axes: barrel, exaggerated form, and each level from above. */
export function BoreMap(props: BoreMapProps) {
  const {
    levels,
    nominal,
    result,
    decimals = 3,
    format = plainNumber,
    height = 400,
    narrow = false,
    words = englishWords,
  } = props;
  const limit = props.limit ?? null;
  const id = useId();
  const layout = layoutOf(props, height);
  const letter = (value: number) => format(value, decimals);
  const say = (value: number | null) => (value === null ? words.bore.nothingMeasured : letter(value));
  const measured = levels.some(({ across, along }) => isReading(across) || isReading(along));
  const width = narrow ? 372 : 640;
  const level = result.outOfRoundLevel ?? null;
  const outOfRound =
    result.outOfRound === null
      ? null
      : words.bore.outOfRound(letter(result.outOfRound), level === null ? null : levelName(level));
  return (
    <Drawing
      className="bore-map"
      label={measured ? words.bore.map(say(result.outOfRound), say(result.taper)) : words.bore.nothingMeasured}
      viewBox={[0, 0, width, height]}
      width={width}
      height={height}
    >
      <defs>
        <Hatch id={`${id}cut`} pitch={6} line={0.8} />
      </defs>
      <BoreBarrel levels={levels} layout={layout} pattern={`${id}cut`} nominal={letter(nominal)} words={words.bore} />
      <BoreForm
        levels={levels}
        layout={layout}
        nominal={nominal}
        limit={limit}
        result={result}
        letter={letter}
        words={words.bore}
      />
      {narrow ? null : (
        <BoreRounds
          levels={levels}
          layout={layout}
          nominal={nominal}
          limit={limit}
          letter={letter}
          words={words.bore}
        />
      )}
      {outOfRound === null ? null : (
        <text
          x={narrow ? width - 4 : layout.roundsCentre}
          y={narrow ? 16 : 34}
          textAnchor={narrow ? 'end' : 'middle'}
          className="tn b"
        >
          {outOfRound}
        </text>
      )}
    </Drawing>
  );
}
