import type { PrintLabels, SymbolKind } from '#contracts/labels.ts';
import { type LabelStock, labelStocks } from '#domain/labels/stock.ts';

/** What this terminal's printer has in it, and by how much it misses: kept at the terminal. */
export interface PrintSettings {
  readonly stock: string;
  readonly symbol: SymbolKind;
  readonly right: string;
  readonly down: string;
}

const KEY = 'crosshatch-labels';
const first: PrintSettings = { stock: labelStocks[0]?.id ?? '', symbol: 'datamatrix', right: '0', down: '0' };

export function keptSettings(): PrintSettings {
  try {
    const kept = { ...first, ...(JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<PrintSettings>) };
    return labelStocks.some(({ id }) => id === kept.stock) ? kept : { ...kept, stock: first.stock };
  } catch {
    return first;
  }
}

export function keepSettings(settings: PrintSettings): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    // A full or forbidden store: asked again next time.
  }
}

export const stockOf = (id: string): LabelStock | undefined => labelStocks.find((stock) => stock.id === id);

/** A typed offset in mm, with a comma or a point; undefined: it is none from −10 to 10. */
export function millimetresOf(text: string): number | undefined {
  const typed = text.trim().replace(',', '.').replace('−', '-');
  if (!/^-?\d{1,2}(\.\d{1,2})?$/.test(typed)) return typed === '' ? 0 : undefined;
  const value = Number(typed);
  return Math.abs(value) <= 10 ? value : undefined;
}

interface Asked extends PrintSettings {
  readonly labels: PrintLabels['labels'];
  readonly start: number;
}

/** What is sent; undefined while an offset is not a number that can be. */
export function printOf({ labels, stock, symbol, start, right, down }: Asked): PrintLabels | undefined {
  const [x, y] = [millimetresOf(right), millimetresOf(down)];
  if (x === undefined || y === undefined) return undefined;
  const offset = x === 0 && y === 0 ? {} : { offsetMm: { right: x, down: y } };
  return { labels, stock, symbol, ...(start > 1 ? { start } : {}), ...offset };
}
