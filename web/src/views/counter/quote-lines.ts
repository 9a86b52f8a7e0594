import type { QuoteDraft, SendQuote } from '#contracts/counter.ts';
import type { Money } from '#contracts/wire.ts';
import { moneyEntry, readMoney } from '../../words/money-entry.ts';

export const lineKinds = [
  'part',
  'labour',
  'outside work',
] as const satisfies readonly QuoteDraft['lines'][number]['kind'][];

/** A line of a quote while it is written: figures as they were typed. */
export interface EditedLine {
  readonly key: string;
  readonly kind: SendQuote['lines'][number]['kind'];
  readonly words: string;
  readonly quantity: string;
  readonly each: string;
  readonly partId: string | null;
  readonly obligationId: string | null;
}

export const emptyLine = (): EditedLine => ({
  key: crypto.randomUUID(),
  kind: 'labour',
  words: '',
  quantity: '1',
  each: '',
  partId: null,
  obligationId: null,
});

/** What the draft suggests; a price that isn't known stands empty, so that somebody sets it. */
export const editedLines = (draft: QuoteDraft): readonly EditedLine[] =>
  draft.lines.map((line) => ({
    key: crypto.randomUUID(),
    kind: line.kind,
    words: line.words,
    quantity: String(line.quantity),
    each: line.priced ? moneyEntry(line.each) : '',
    partId: line.partId,
    obligationId: line.obligationId,
  }));

export interface PricedLine {
  readonly quantity: number;
  readonly each: Money;
}

/** Quantity and price of a line; undefined while one of them is none. */
export function pricedLine(line: EditedLine, currency: string): PricedLine | undefined {
  const each = readMoney(line.each, currency);
  const quantity = /^\d{1,5}$/.test(line.quantity) ? Number(line.quantity) : 0;
  return each === undefined || quantity < 1 || quantity > 10_000 ? undefined : { quantity, each };
}

/** The request, once every line has words, a quantity and a price. */
export function quoteOf(lines: readonly EditedLine[], note: string, currency: string): SendQuote | undefined {
  const whole = lines.flatMap((line) => {
    const priced = pricedLine(line, currency);
    if (priced === undefined || line.words.trim() === '') return [];
    return [
      {
        kind: line.kind,
        words: line.words.trim(),
        ...priced,
        ...(line.partId === null ? {} : { partId: line.partId }),
        ...(line.obligationId === null ? {} : { obligationId: line.obligationId }),
      },
    ];
  });
  if (whole.length === 0 || whole.length < lines.length) return undefined;
  return { lines: whole, ...(note.trim() === '' ? {} : { note: note.trim() }) };
}
