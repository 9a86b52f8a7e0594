import { isoOf } from './clock.ts';
import type { JobParts } from './job-parts.ts';
import { type Act, tell, type Visit } from './visit.ts';
import { known } from './world.ts';

export interface QuoteItem {
  readonly kind: 'labour' | 'outside work';
  readonly words: string;
  readonly quantity: number;
  readonly each: number;
}

/** Euro cents for an hour at the bench. */
export const hourly = 6_800;

export const labour = (words: string, hours: number): QuoteItem => ({
  kind: 'labour',
  words,
  quantity: hours,
  each: hourly,
});

export interface Quote {
  readonly id: string;
  readonly visit: Visit;
  readonly total: number;
  readonly number: number;
}

/** Sends a quote over what the job wants of stores and the work named beside it. */
export function sendQuote(
  parts: JobParts,
  act: Act,
  of: { readonly items: readonly QuoteItem[]; readonly number?: number; readonly note?: string },
): Quote {
  const { visit, stock, lines } = parts;
  const { world } = visit;
  const id = world.id('quote', act.at);
  const number = of.number ?? 1;
  const items = [
    ...[...lines.values()]
      .filter(({ row }) => Number(row.wanted) > Number(row.cancelled))
      .map(({ part, row }) => {
        const { data, id: partId } = known(stock.parts, part);
        return {
          kind: 'part',
          words: data.name,
          quantity: Number(row.wanted) - Number(row.cancelled),
          each: data.price,
          partId,
        };
      }),
    ...of.items.map((item) => ({ ...item, partId: null })),
  ];
  const total = items.reduce((sum, { quantity, each }) => sum + quantity * each, 0);
  world.rows.add('quote', {
    id,
    job_id: visit.jobId,
    number,
    currency: 'EUR',
    total_minor: total,
    note: of.note ?? '',
    sent_by_id: known(world.people, act.by),
    sent_at: isoOf(act.at),
  });
  items.forEach((item, index) => {
    world.rows.add('quote_line', {
      id: world.id('quote_line', act.at),
      quote_id: id,
      ordinal: index + 1,
      kind: item.kind,
      words: item.words,
      quantity: item.quantity,
      each_minor: item.each,
      amount_minor: item.quantity * item.each,
      part_id: item.partId,
      obligation_id: null,
    });
  });
  tell(visit, 'quote.sent', act, { number, lines: items.length });
  return { id, visit, total, number };
}

export function answer(
  quote: Quote,
  act: Act,
  of: { readonly yes: boolean; readonly how: 'at the counter' | 'by telephone' | 'in writing'; readonly note?: string },
): void {
  const { visit } = quote;
  const { world, engine } = visit;
  world.rows.add('quote_answer', {
    quote_id: quote.id,
    yes: of.yes,
    sum_minor: of.yes ? quote.total : 0,
    said_by: engine.ownerName,
    how: of.how,
    note: of.note ?? '',
    taken_by_id: known(world.people, act.by),
    taken_at: isoOf(act.at),
  });
  tell(visit, 'quote.answered', act, { number: quote.number, yes: of.yes, saidBy: engine.ownerName, how: of.how });
}
