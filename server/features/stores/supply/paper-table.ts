import type { Pdf } from '#platform/pdf.ts';

export interface PaperColumn {
  readonly name: string;
  readonly width: number;
  /** Figures stand at its right edge. */
  readonly right?: boolean;
}

export interface PaperCell {
  readonly words: string;
  /** In small, beneath. */
  readonly under?: string;
  readonly bold?: boolean;
}
/** One cell a column. */
export type PaperLine = readonly PaperCell[];

export interface PaperTable {
  readonly columns: readonly PaperColumn[];
  readonly lines: readonly PaperLine[];
  /** Where its head begins. */
  readonly from: { readonly x: number; readonly y: number };
  /** Where it goes on, on a further page, and where each page ends. */
  readonly page: { readonly top: number; readonly foot: number };
}

const gap = 6;
const size = { words: 9.5, under: 8, head: 7.5 } as const;

const faceOf = (pdf: Pdf, { bold = false }: PaperCell) => pdf.font(bold ? 'bold' : 'regular').fontSize(size.words);

function highOf(pdf: Pdf, cell: PaperCell, width: number): number {
  const words = cell.words === '' ? 0 : faceOf(pdf, cell).heightOfString(cell.words, { width });
  const under =
    cell.under === undefined ? 0 : pdf.font('regular').fontSize(size.under).heightOfString(cell.under, { width });
  return words + under;
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** The cells of a row side by side; each wraps within its column, so that no name is cut off. */
function eachCell(
  columns: readonly PaperColumn[],
  x: number,
  draw: (column: PaperColumn, at: { at: number; x: number }) => void,
) {
  columns.reduce((left, column, at) => {
    draw(column, { at, x: left });
    return left + column.width;
  }, x);
}

function drawHeadRow(pdf: Pdf, { columns }: PaperTable, { x, y }: Place): number {
  pdf.font('regular').fontSize(size.head).fillColor('#444');
  const high = Math.max(...columns.map(({ name, width }) => pdf.heightOfString(name, { width: width - gap })));
  eachCell(columns, x, ({ name, width, right }, cell) => {
    pdf.text(name, cell.x, y + high - pdf.heightOfString(name, { width: width - gap }), {
      width: width - gap,
      align: right ? 'right' : 'left',
    });
  });
  return ruled(pdf, { columns, x, y: y + high + 3 }, 0.9) + 4;
}

function ruled(pdf: Pdf, of: Place & { readonly columns: readonly PaperColumn[] }, wide: number): number {
  const end = of.columns.reduce((left, { width }) => left + width, of.x);
  pdf.lineWidth(wide).moveTo(of.x, of.y).lineTo(end, of.y).stroke('black');
  return of.y;
}

function drawRow(
  pdf: Pdf,
  columns: readonly PaperColumn[],
  { line, x, y }: Place & { readonly line: PaperLine },
): void {
  eachCell(columns, x, ({ width, right }, { at, x: left }) => {
    const cell = line[at];
    if (cell === undefined) return;
    const across = { width: width - gap, align: right ? ('right' as const) : ('left' as const) };
    let under = y;
    if (cell.words !== '') {
      faceOf(pdf, cell).fillColor('black').text(cell.words, left, y, across);
      under = pdf.y;
    }
    if (cell.under !== undefined)
      pdf.font('regular').fontSize(size.under).fillColor('#444').text(cell.under, left, under, across);
  });
}

/** Draws rows under a head that is said again on each page, none of them broken over two. Tells where it ended. */
export function drawLines(pdf: Pdf, table: PaperTable): number {
  const { columns, lines, from, page } = table;
  let y = drawHeadRow(pdf, table, from);
  for (const line of lines) {
    const high = Math.max(...line.map((cell, at) => highOf(pdf, cell, (columns[at]?.width ?? gap) - gap)));
    if (y + high + 7 > page.foot) {
      pdf.addPage({ size: 'A4', margin: 0 });
      y = drawHeadRow(pdf, table, { x: from.x, y: page.top });
    }
    drawRow(pdf, columns, { line, x: from.x, y });
    y = ruled(pdf, { columns, x: from.x, y: y + high + 3 }, 0.3) + 4;
  }
  return y;
}
