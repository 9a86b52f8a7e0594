/** A width and a height, or a step across and down, in millimetres. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A sheet of labels, or one label of a roll: how big they are and where they lie on what goes through the printer. */
export interface LabelStock {
  readonly id: string;
  /** How people name it: size and count, e.g. `63.5 × 38.1 mm, 21 on A4`. */
  readonly name: string;
  readonly page: Size;
  readonly label: Size;
  readonly columns: number;
  readonly rows: number;
  /** From the page's left and top edge to the first label. */
  readonly origin: { readonly x: number; readonly y: number };
  /** From one label's left or top edge to the next one's. */
  readonly pitch: { readonly x: number; readonly y: number };
}

const a4 = { name: 'A4', page: { width: 210, height: 297 } };
const letter = { name: 'Letter', page: { width: 215.9, height: 279.4 } };

/** The labels lie in the middle of the sheet, `gap` mm apart from side to side and touching up and down. */
function sheet(
  paper: typeof a4,
  label: Size,
  { columns, rows, gap }: { columns: number; rows: number; gap: number },
): LabelStock {
  const pitch = { x: label.width + gap, y: label.height };
  return {
    id: `${columns * rows}-on-${paper.name.toLowerCase()}`,
    name: `${label.width} × ${label.height} mm, ${columns * rows} on ${paper.name}`,
    page: paper.page,
    label,
    columns,
    rows,
    origin: {
      x: (paper.page.width - (columns - 1) * pitch.x - label.width) / 2,
      y: (paper.page.height - rows * label.height) / 2,
    },
    pitch,
  };
}

/** One label after the other: each is a page of its own. */
const single = (what: string, label: Size): LabelStock => ({
  id: `${what}-${label.width}x${label.height}`,
  name: `${label.width} × ${label.height} mm, ${what}`,
  page: label,
  label,
  columns: 1,
  rows: 1,
  origin: { x: 0, y: 0 },
  pitch: { x: 0, y: 0 },
});

/** Sizes of labels that are sold everywhere, by their dimensions; the card is ID-1 of ISO/IEC 7810. */
export const labelStocks: readonly LabelStock[] = [
  sheet(a4, { width: 63.5, height: 38.1 }, { columns: 3, rows: 7, gap: 2.5 }),
  sheet(a4, { width: 70, height: 37 }, { columns: 3, rows: 8, gap: 0 }),
  sheet(a4, { width: 38.1, height: 21.2 }, { columns: 5, rows: 13, gap: 2.5 }),
  sheet(letter, { width: 66.7, height: 25.4 }, { columns: 3, rows: 10, gap: 3.1 }),
  single('roll', { width: 62, height: 29 }),
  single('roll', { width: 57, height: 32 }),
  single('card', { width: 85.6, height: 54 }),
];

export const perPage = ({ columns, rows }: LabelStock): number => columns * rows;

export interface Placed {
  /** From 0. */
  readonly page: number;
  /** Left and top of the label, mm from the page's left and top edge. */
  readonly x: number;
  readonly y: number;
}

export interface PlacingOptions {
  /** The first label that is still on a part-used sheet, from 1, row by row; 1 without it. */
  readonly start?: number | undefined;
  /** What the printer is out by, mm to the right and down; negative: to the left and up. */
  readonly offset?: { readonly x: number; readonly y: number } | undefined;
}

/**
 * Where each of `count` labels goes, row by row from `start` on, as many pages as it takes.
 * @throws RangeError when the start is none of the sheet's labels
 */
export function placesOn(
  stock: LabelStock,
  count: number,
  { start = 1, offset }: PlacingOptions = {},
): readonly Placed[] {
  const each = perPage(stock);
  if (!Number.isInteger(start) || start < 1 || start > each)
    throw new RangeError(`there is no label ${start} on this sheet`);
  return Array.from({ length: count }, (_, index) => {
    const position = start - 1 + index;
    const onPage = position % each;
    return {
      page: Math.floor(position / each),
      x: stock.origin.x + (onPage % stock.columns) * stock.pitch.x + (offset?.x ?? 0),
      y: stock.origin.y + Math.floor(onPage / stock.columns) * stock.pitch.y + (offset?.y ?? 0),
    };
  });
}
