import type { Order } from '#contracts/supply.ts';
import { inPacks } from '#domain/stock/packs.ts';
import { csvFileOf } from '#platform/csv-file.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { orderById } from './orders.ts';
import { findShopPaper } from './queries.ts';

type Line = Order['lines'][number];

const units: Readonly<Record<Line['unit'], readonly [one: string, several: string]>> = {
  piece: ['piece', 'pieces'],
  pair: ['pair', 'pairs'],
  set: ['set', 'sets'],
  ml: ['ml', 'ml'],
  g: ['g', 'g'],
  mm: ['mm', 'mm'],
};

const counted = (ones: number, unit: Line['unit']): string => `${ones} ${units[unit][ones === 1 ? 0 : 1]}`;

/** How many, as a vendor picks it: "2 packs of 10 = 20 pieces". */
export function quantityText({ quantity, unit, packSize }: Line): string {
  if (packSize === 1) return counted(quantity, unit);
  const { packs, loose } = inPacks(quantity, packSize);
  const whole = packs === 0 ? [] : [`${packs} ${packs === 1 ? 'pack' : 'packs'} of ${packSize}`];
  const open = loose === 0 ? [] : [`${loose} out of a pack of ${packSize}`];
  return `${[...whole, ...open].join(' and ')} = ${counted(quantity, unit)}`;
}

function lineText(line: Line, at: number): readonly string[] {
  const { part, theirNumber, words, wantedOn, promisedOn } = line;
  const number = theirNumber === '' ? `Our number ${part.number}` : `Your number ${theirNumber}, ours ${part.number}`;
  const days = [
    ...(wantedOn === null ? [] : [`Wanted by ${wantedOn}`]),
    ...(promisedOn === null ? [] : [`Promised for ${promisedOn}`]),
  ];
  const more = [part.name, ...(words === '' ? [] : [words]), number, ...days];
  return [`${String(at + 1).padStart(3)}. ${quantityText(line)}`, ...more.map((text) => `     ${text}`)];
}

/** An order as plain text, to be put into a letter; days are the shop's. */
export async function orderText(sql: Sql, id: string): Promise<string> {
  const order = await orderById(sql, id, false);
  const { writtenOn } = found(await findShopPaper(sql, order.openedAt), 'shop');
  const { name, address, phone, email } = order.from;
  const sender = [name, ...address.split(/\r?\n/), phone, email]
    .map((each) => each.trim())
    .filter((each) => each !== '');
  return [
    `Order ${order.number}`,
    '',
    ...sender.map((each, at) => `${at === 0 ? 'From ' : '     '}    ${each}`),
    `To       ${order.vendor.name}`,
    `Written  ${writtenOn}, ${order.openedBy}`,
    '',
    ...order.lines.flatMap((line, at) => (at === 0 ? lineText(line, at) : ['', ...lineText(line, at)])),
    ...(order.words === '' ? [] : ['', order.words]),
    '',
  ].join('\r\n');
}

/** An order as a file; `packs` is empty where some of them were called off by the piece. */
export async function orderCsv(sql: Sql, id: string): Promise<string> {
  const order = await orderById(sql, id, false);
  return csvFileOf(
    [
      'order',
      'line',
      'their_number',
      'number',
      'name',
      'words',
      'packs',
      'pack',
      'quantity',
      'unit',
      'received',
      'wanted_on',
      'promised_on',
    ],
    order.lines.map((line, at) => {
      const { packs, loose } = inPacks(line.quantity, line.packSize);
      return guardedRow({
        order: String(order.number),
        line: String(at + 1),
        their_number: line.theirNumber,
        number: line.part.number,
        name: line.part.name,
        words: line.words,
        packs: loose === 0 ? String(packs) : '',
        pack: String(line.packSize),
        quantity: String(line.quantity),
        unit: line.unit,
        received: String(line.received),
        wanted_on: line.wantedOn ?? '',
        promised_on: line.promisedOn ?? '',
      });
    }),
  );
}
