import type { Order } from '#contracts/supply.ts';
import { packWorth } from '#domain/stock/packs.ts';
import type { Sql } from '#platform/database/client.ts';
import { drawnPdf, openPdf, type Pdf } from '#platform/pdf.ts';
import { found } from '#platform/problem.ts';
import { quantityText } from './order-papers.ts';
import { orderById } from './orders.ts';
import { drawLines, type PaperColumn, type PaperLine } from './paper-table.ts';
import { findShopPaper } from './queries.ts';

type Line = Order['lines'][number];

/** A4 in points, and where its ink begins and ends. */
const page = { width: 595.28, height: 841.89, left: 45, right: 550.28, top: 42, foot: 800 } as const;
const small = 7.5;

type Write = (minor: bigint) => string;

/** Sums as the shop's country writes them, without the currency: the column's head names it. */
function sumsIn({ locale, currency }: { readonly locale: string; readonly currency: string }): Write {
  const digits =
    new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
  const format = new Intl.NumberFormat(locale, { minimumFractionDigits: digits, maximumFractionDigits: digits });
  return (minor) => format.format(Number(minor) / 10 ** digits);
}

function lineOnPaper(line: Line, at: number, write: Write | undefined): PaperLine {
  const { part, theirNumber, words: told, price, packSize, quantity } = line;
  const days = [
    ...(line.wantedOn === null ? [] : [line.wantedOn]),
    ...(line.promisedOn === null ? [] : [`promised ${line.promisedOn}`]),
  ];
  const sums =
    write === undefined
      ? []
      : price === null
        ? ['–', '–']
        : [write(BigInt(price.minor)), write(packWorth({ priceMinor: BigInt(price.minor), packSize }, quantity))];
  return [
    { words: String(at + 1) },
    { words: theirNumber, bold: true },
    { words: part.name, under: [...(told === '' ? [] : [told]), `Our number ${part.number}`].join('\n'), bold: true },
    { words: quantityText(line) },
    { words: days.join('\n') },
    ...sums.map((words) => ({ words })),
  ];
}

/** The columns across the page; sums have theirs where they may be seen. */
function columnsOf(currency: string | undefined): readonly PaperColumn[] {
  const sums: readonly PaperColumn[] =
    currency === undefined
      ? []
      : [
          { name: `Price of a pack, ${currency}`, width: 52, right: true },
          { name: `Sum, ${currency}`, width: 56, right: true },
        ];
  const known = sums.reduce((sum, { width }) => sum + width, 20 + 78 + 96 + 62);
  return [
    { name: 'No.', width: 20, right: true },
    { name: 'Your number', width: 78 },
    { name: 'Part', width: page.right - page.left - known },
    { name: 'How many', width: 96 },
    { name: 'Wanted by', width: 62 },
    ...sums,
  ];
}

/** A cell of the head: what it is, small, and beneath it what it says. */
function headCell(pdf: Pdf, name: string, words: string, at: { x: number; y: number; width: number }): number {
  pdf.font('regular').fontSize(small).fillColor('#444').text(name, at.x, at.y, { width: at.width });
  pdf
    .font('regular')
    .fontSize(10)
    .fillColor('black')
    .text(words === '' ? '–' : words, at.x, pdf.y + 1, { width: at.width });
  return pdf.y;
}

/** Who orders, of whom, when; ruled like the title block of a drawing. Tells where it ends. */
function drawHead(pdf: Pdf, order: Order, writtenOn: string): number {
  const { from, vendor } = order;
  const half = (page.right - page.left) / 2;
  pdf.font('bold').fontSize(20).fillColor('black').text(`Order ${order.number}`, page.left, page.top);
  const top = pdf.y + 8;
  const sender = [from.name, from.address, from.phone, from.email].filter((each) => each !== '').join('\n');
  const receiver = [vendor.name, vendor.contact].filter((each) => each !== '').join('\n');
  const cell = (name: string, words: string, column: 0 | 1, y: number) =>
    headCell(pdf, name, words, { x: page.left + column * half + 6, y: y + 4, width: half - 12 });
  const split = Math.max(cell('To', receiver, 0, top), cell('From, and deliver to', sender, 1, top)) + 5;
  const written = `${writtenOn}, ${order.openedBy}`;
  const end = Math.max(cell('Order number', String(order.number), 0, split), cell('Written', written, 1, split)) + 5;
  pdf
    .lineWidth(0.9)
    .rect(page.left, top, half * 2, end - top)
    .stroke('black');
  pdf.lineWidth(0.4);
  pdf.moveTo(page.left, split).lineTo(page.right, split).stroke('black');
  pdf
    .moveTo(page.left + half, top)
    .lineTo(page.left + half, end)
    .stroke('black');
  return end + 16;
}

/** What all lines come to, and what is asked besides. */
function drawEnd(
  pdf: Pdf,
  order: Order,
  { y, write }: { readonly y: number; readonly write: Write | undefined },
): void {
  const unpriced = order.lines.filter(({ price }) => price === null).length;
  const sum =
    write === undefined
      ? ''
      : order.total === null
        ? `Of ${unpriced === 1 ? 'one line' : `${unpriced} lines`} no price is known: please tell it.`
        : `Sum  ${write(BigInt(order.total.minor))} ${order.total.currency}`;
  const width = page.right - page.left;
  pdf.font('bold').fontSize(10.5);
  const high =
    pdf.heightOfString(sum, { width }) + pdf.font('regular').fontSize(10).heightOfString(order.words, { width });
  let at = y + 8;
  if (at + high + 12 > page.foot) {
    pdf.addPage({ size: 'A4', margin: 0 });
    at = page.top;
  }
  if (sum !== '')
    pdf.font('bold').fontSize(10.5).fillColor('black').text(sum, page.left, at, { width, align: 'right' });
  if (order.words !== '')
    pdf
      .font('regular')
      .fontSize(10)
      .text(order.words, page.left, at + 20, { width });
}

function drawFoots(pdf: Pdf, words: string): void {
  const { start, count } = pdf.bufferedPageRange();
  for (let at = 0; at < count; at += 1) {
    pdf.switchToPage(start + at);
    pdf
      .lineWidth(0.4)
      .moveTo(page.left, page.foot + 6)
      .lineTo(page.right, page.foot + 6)
      .stroke('black');
    pdf.font('regular').fontSize(8).fillColor('black');
    const width = page.right - page.left;
    pdf.text(words, page.left, page.foot + 10, { width: width - 80, height: 10, ellipsis: true, lineBreak: false });
    pdf.text(`Page ${at + 1} of ${count}`, page.right - 80, page.foot + 10, {
      width: 80,
      align: 'right',
      lineBreak: false,
    });
  }
}

/** An order as its vendor gets it: A4, on as many pages as it takes, with sums for those who may see money. */
export async function orderPdf(sql: Sql, id: string, seesMoney: boolean): Promise<{ name: string; pdf: Buffer }> {
  const order = await orderById(sql, id, seesMoney);
  const paper = found(await findShopPaper(sql, order.openedAt), 'shop');
  const write = seesMoney ? sumsIn(paper) : undefined;
  const title = `Order ${order.number}`;
  const pdf = await drawnPdf(openPdf(title), (sheet) => {
    sheet.addPage({ size: 'A4', margin: 0 });
    const y = drawLines(sheet, {
      columns: columnsOf(seesMoney ? paper.currency : undefined),
      lines: order.lines.map((line, at) => lineOnPaper(line, at, write)),
      from: { x: page.left, y: drawHead(sheet, order, paper.writtenOn) },
      page,
    });
    drawEnd(sheet, order, { y, write });
    drawFoots(sheet, `${title}, ${order.from.name}, ${paper.writtenOn}`);
  });
  return { name: `order-${order.number}.pdf`, pdf };
}
