import type { MeasuredValue } from '#contracts/floor.ts';
import type { StripReading } from '../../drawings/limit-axis.ts';
import type { Format } from '../../words/format.ts';
import type { Words } from '../../words/words.tsx';

/** A worked-out value as it is read: `88.048`, `0.52 – 0.55`, `0.60 or more`, `play felt`. */
export function valueInWords(value: MeasuredValue, format: Pick<Format, 'decimal'>, words: Words['engine']): string {
  switch (value.type) {
    case 'point':
      return format.decimal(value.value.value);
    case 'interval':
    case 'span': {
      const { low, high } = value.interval;
      return high === null
        ? words.value.orMore(format.decimal(low))
        : words.value.between(format.decimal(low), format.decimal(high));
    }
    case 'felt':
      return value.present ? words.value.felt : words.value.notFelt;
  }
}

/** A point value with its guard band; any other value as valueInWords. */
export function valueWithGuard(
  value: MeasuredValue,
  guard: string,
  { format, words }: { readonly format: Pick<Format, 'decimal'>; readonly words: Words['engine'] },
): string {
  const text = valueInWords(value, format, words);
  return value.type === 'point' && Number(guard) > 0 ? words.value.guarded(text, format.decimal(guard)) : text;
}

/** What a limit strip draws of it; play felt by hand has no place on a scale. */
export function stripReading(value: MeasuredValue, guard: string): StripReading | null {
  switch (value.type) {
    case 'point':
      return { kind: 'value', value: Number(value.value.value), guard: Number(guard) };
    case 'interval':
    case 'span':
      return {
        kind: 'interval',
        goes: Number(value.interval.low),
        doesNot: value.interval.high === null ? null : Number(value.interval.high),
      };
    case 'felt':
      return null;
  }
}

/** `14 % likely past`, of an interval `3 to 40 % likely past`; nothing where it says no more than the verdict. */
export function likelihoodInWords(
  pPast: { readonly low: number; readonly high: number },
  words: Words['engine'],
): string | undefined {
  const percent = (p: number) => Math.round(p * 100);
  const [low, high] = [percent(pPast.low), percent(pPast.high)];
  if (high < 1 || low > 99) return undefined;
  return low === high ? words.likely(low) : words.likelyBetween(low, high);
}
