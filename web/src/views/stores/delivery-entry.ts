import type { ExpectedLine, TakeDelivery } from '#contracts/deliveries.ts';
import type { Money } from '#contracts/wire.ts';
import { worthComing } from '#domain/stock/packs.ts';
import { shareByWorth } from '#domain/stock/reorder.ts';
import { readMoney } from '../../words/money-entry.ts';
import { onesAsked } from './ones-asked.ts';

/** What is typed of one line that came. */
export interface Entry {
  /** In packs and loose together. */
  readonly quantity: number;
  readonly binId: string;
  readonly lot: string;
  readonly thickness: string;
  readonly grade: string;
  readonly cost: string;
  readonly serials: string;
  readonly wrong: number;
  readonly wrongWords: string;
  readonly damaged: number;
  readonly damagedWords: string;
}

export const openOf = ({ quantity, received }: ExpectedLine): number => Math.max(0, quantity - received);

export const entryOf = (line: ExpectedLine): Entry => ({
  quantity: openOf(line),
  binId: line.usualBin?.id ?? '',
  lot: '',
  thickness: '',
  grade: '',
  cost: '',
  serials: '',
  wrong: 0,
  wrongWords: '',
  damaged: 0,
  damagedWords: '',
});

const serialsOf = (text: string): readonly string[] =>
  text
    .split(/[\n,;]+/)
    .map((one) => one.trim())
    .filter((one) => one !== '');

/** What they cost by the order, in minor units: to the last one over a pack, as the server reckons it. */
export const goodsByOrder = ({ price, packSize, received }: ExpectedLine, quantity: number): bigint =>
  worthComing({ priceMinor: BigInt(price?.minor ?? '0'), packSize }, received, quantity);

export const isSum = (text: string, currency: string): boolean =>
  text.trim() === '' || readMoney(text, currency) !== undefined;

/** What the goods of a line cost, as typed or else by the order. */
export function goodsOf(line: ExpectedLine, entry: Entry, currency: string): bigint {
  const typed = entry.cost.trim() === '' ? undefined : readMoney(entry.cost, currency);
  return typed === undefined ? goodsByOrder(line, entry.quantity) : BigInt(typed.minor);
}

/** One line as it is sent. */
export function asked(line: ExpectedLine, entry: Entry, currency: string): TakeDelivery['lines'][number] {
  const { quantity, binId } = entry;
  const cost: Money | undefined = entry.cost.trim() === '' ? undefined : readMoney(entry.cost, currency);
  const serials = serialsOf(entry.serials);
  const thickness = entry.thickness.trim().replace(',', '.');
  return {
    purchaseLineId: line.id,
    ...onesAsked(quantity, line.packSize),
    ...(quantity > 0 && binId !== '' ? { binId } : {}),
    ...(entry.lot.trim() === '' ? {} : { lotCode: entry.lot.trim() }),
    ...(thickness === '' ? {} : { thickness: { value: thickness, unit: 'mm' } }),
    ...(quantity > 0 && entry.grade.trim() !== '' ? { grade: entry.grade.trim() } : {}),
    ...(serials.length === 0 ? {} : { serials: [...serials] }),
    ...(cost === undefined ? {} : { cost }),
    ...(quantity > openOf(line) ? { acceptOver: true } : {}),
    ...(entry.wrong > 0 ? { wrong: { ...onesAsked(entry.wrong, line.packSize), words: entry.wrongWords } } : {}),
    ...(entry.damaged > 0
      ? { damaged: { ...onesAsked(entry.damaged, line.packSize), words: entry.damagedWords } }
      : {}),
  };
}

export interface Landed {
  readonly line: ExpectedLine;
  readonly quantity: number;
  readonly goods: bigint;
  readonly share: bigint;
}

/** How the freight is spread over what is taken in: the same rule by which the server does it. */
export function landedOf(
  came: readonly { readonly line: ExpectedLine; readonly entry: Entry }[],
  freight: bigint,
  currency: string,
): readonly Landed[] {
  const good = came.filter(({ entry }) => entry.quantity > 0);
  const goods = good.map(({ line, entry }) => goodsOf(line, entry, currency));
  const shares = good.length === 0 ? [] : shareByWorth(freight, goods);
  return good.map(({ line, entry }, at) => ({
    line,
    quantity: entry.quantity,
    goods: goods[at] ?? 0n,
    share: shares[at] ?? 0n,
  }));
}
