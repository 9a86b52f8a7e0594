import type { Mark, Measure, Weight } from './mark.ts';

export interface Setting {
  readonly x: number;
  /** The line the first row of letters stands on. */
  readonly y: number;
  readonly size: number;
  readonly weight?: Weight;
  /** As much room as there is to the right. */
  readonly room: number;
}

/** Cut short, with a dot-dot-dot, so that it fits. */
function cut(words: string, room: number, width: (words: string) => number): string {
  if (width(words) <= room) return words;
  let kept = [...words];
  while (kept.length > 0 && width(`${kept.join('').trimEnd()}…`) > room) kept = kept.slice(0, -1);
  return kept.length === 0 ? '' : `${kept.join('').trimEnd()}…`;
}

/** One row of words: smaller down to `least` so that it fits, then cut short. */
export function lineOfWords(
  words: string,
  { x, y, size, weight = 'regular', room }: Setting,
  measure: Measure,
  least = size,
): Mark {
  const full = measure(words, size, weight);
  const fitting = full <= room ? size : Math.max(least, Math.floor(((size * room) / full) * 20) / 20);
  const shown = cut(words, room, (part) => measure(part, fitting, weight));
  return { kind: 'text', x, y, size: fitting, weight, words: shown, width: measure(shown, fitting, weight) };
}

/** Rows of words, broken between words, at most `rows` of them; the last one is cut short if more was to be said. */
export function rowsOfWords(
  words: string,
  setting: Setting & { readonly rows: number },
  measure: Measure,
): readonly Mark[] {
  const { size, weight = 'regular', room, rows } = setting;
  const lines: string[] = [];
  for (const word of words.split(/\s+/).filter((each) => each !== '')) {
    const last = lines.at(-1);
    const longer = `${last ?? ''} ${word}`;
    if (last !== undefined && (measure(longer, size, weight) <= room || lines.length === rows))
      lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines
    .slice(0, rows)
    .map((line, index) => lineOfWords(line, { ...setting, y: setting.y + index * size * 1.22 }, measure));
}
