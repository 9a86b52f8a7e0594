import { at, scaleBetween } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { type LimitFacts, limitAxis, type StripReading, soundLimits } from './limit-axis.ts';
import { type FormatNumber, plainNumber } from './number-format.ts';
import { StripBands } from './strip-bands.tsx';
import { StripLettering } from './strip-lettering.tsx';
import { isDrawable, StripMark } from './strip-mark.tsx';
import { asksForAHand, type VerdictKind } from './verdict-kind.ts';
import { type DrawingWords, englishWords } from './words.ts';

export type LimitStripProps = LimitFacts & {
  readonly verdict: VerdictKind;
  readonly reading?: StripReading | null;
  /** This engine's earlier readings of the dimension. */
  readonly earlier?: readonly number[];
  /** Which dimension: the first words of the accessible name. */
  readonly label: string;
  readonly decimals?: number;
  readonly unit?: string;
  readonly format?: FormatNumber;
  readonly width?: number;
  /** For a table row: no lettering. */
  readonly compact?: boolean;
  readonly words?: Pick<DrawingWords, 'strip' | 'verdict'>;
};

/** The reading in words: a value with its guard band, or what goes and what doesn't. */
export function readingInWords(
  reading: StripReading,
  lettering: { readonly letter: (value: number) => string; readonly words: DrawingWords['strip'] },
): string {
  const { letter, words } = lettering;
  if (reading.kind === 'value') return `${letter(reading.value)} ± ${letter(reading.guard)}`;
  if (reading.goes !== null && reading.doesNot !== null)
    return words.interval(letter(reading.goes), letter(reading.doesNot));
  if (reading.goes !== null) return words.allGo(letter(reading.goes));
  return reading.doesNot === null ? '' : words.nothingGoes(letter(reading.doesNot));
}

function accessibleName(
  props: LimitStripProps,
  { standard, lower, upper }: LimitFacts,
  said: { readonly text: string; readonly letter: (value: number) => string },
): string {
  const { label, verdict, unit, words = englishWords } = props;
  const { text, letter } = said;
  const [from, to] = standard ?? [null, null];
  const parts = [
    label,
    text === '' ? '' : unit === undefined ? text : `${text} ${unit}`,
    words.verdict[verdict],
    from !== null && to !== null ? words.strip.standard(letter(from), letter(to)) : '',
    lower === null || lower === undefined ? '' : words.strip.atLeast(letter(lower)),
    upper === null || upper === undefined ? '' : words.strip.atMost(letter(upper)),
  ];
  return parts.filter((part) => part !== '').join(', ');
}

/** A dimension on its scale: standard open, within service hatched, past the limit cross-hatched, the reading on it. */
export function LimitStrip(props: LimitStripProps) {
  const {
    verdict,
    earlier = [],
    decimals = 3,
    format = plainNumber,
    width = 460,
    compact = false,
    words = englishWords,
  } = props;
  const reading =
    props.reading !== undefined && props.reading !== null && isDrawable(props.reading) ? props.reading : null;
  const facts = soundLimits(props);
  const axis = limitAxis(facts, reading, earlier);
  const place = scaleBetween(axis.low, axis.high, [8, width - 8]);
  const letter = (value: number) => format(value, decimals);
  const text = reading === null ? '' : readingInWords(reading, { letter, words: words.strip });
  const middle = compact ? 20 : 34;
  const height = compact ? 40 : 78;
  const hot = asksForAHand(verdict);
  return (
    <Drawing
      className="strip"
      label={accessibleName(props, facts, { text, letter })}
      viewBox={[0, 0, width, height]}
      width={width}
      height={height}
    >
      <StripBands facts={facts} axis={axis} scale={{ place, middle, width }} />
      <g data-layer="earlier">
        {earlier
          .filter((value) => value >= axis.low && value <= axis.high)
          .map((value, visit) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two visits may have read the same value
            <path key={visit} d={`M${at(place(value))} ${middle + 8}v6`} className="w" />
          ))}
      </g>
      {reading === null ? null : <StripMark reading={reading} axis={axis} scale={{ place, middle, width }} hot={hot} />}
      {compact ? null : (
        <StripLettering
          facts={facts}
          axis={axis}
          scale={{ place, middle, width }}
          letter={letter}
          reading={reading}
          text={text}
          hot={hot}
        />
      )}
    </Drawing>
  );
}
