import { type CompactFacts, compactBox, compactShapes } from '../section/compact-shapes.ts';
import { codeInGroups } from './code.ts';
import { lineOfWords, rowsOfWords } from './lettering.ts';
import { type Mark, type Measure, type SymbolModules, symbolMark } from './mark.ts';
import type { Size } from './stock.ts';

/** What a label says, in words ready to be printed. */
export interface LabelFacts {
  /** What kind of thing it is stuck on, e.g. `tray`. */
  readonly kind: string;
  /** What people call the thing by: serial, tray label, bin code, part number, name. Set as large as it fits. */
  readonly name: string;
  /** What more to say, most needed first; each row is broken into lines as long as there is room. */
  readonly rows: readonly string[];
  /** The little section drawing, where there is one. */
  readonly section?: Omit<CompactFacts, 'fine'>;
  /** The code in the symbol. */
  readonly code: string;
  /** What is printed for people beneath the symbol: the code, unless it is nobody's to read. */
  readonly beneath?: string;
}

const BENEATH = 2.1;
const KIND = 1.9;
const FINE_FROM = 9;

/** Room around everything: a printer misses by a millimetre. */
const padOf = ({ height }: Size): number => (height < 24 ? 1.4 : height < 34 ? 1.8 : 2.4);

interface Frame {
  readonly size: Size;
  readonly pad: number;
  readonly side: number;
  readonly left: number;
  readonly room: number;
}

function frameOf(size: Size): Frame {
  const pad = padOf(size);
  const side = Math.min(size.height - 2 * pad - BENEATH - 0.6, size.width * 0.4, 26);
  const left = pad + side + (size.width < 45 ? 1.2 : 2.4);
  return { size, pad, side, left, room: size.width - pad - left };
}

/** What the little section takes at the foot of the words; nothing where there is none. */
interface Drawing {
  readonly top: number;
  readonly width: number;
}

/** The kind over a thin line, the name as large as it fits, and rows for as long as there is room. */
function words(
  { kind, name, rows }: LabelFacts,
  frame: Frame,
  { measure, floor, drawing }: { measure: Measure; floor: number; drawing: Drawing },
): readonly Mark[] {
  const { pad, left: x, room, size } = frame;
  const scale = size.height < 24 ? 0.82 : size.height < 34 ? 1 : size.height < 45 ? 1.12 : 1.5;
  const rule = pad + KIND * scale + 0.7;
  const marks: Mark[] = [
    lineOfWords(kind.toUpperCase(), { x, y: rule - 0.7, size: KIND * scale, room }, measure),
    { kind: 'line', from: [x, rule], to: [x + room, rule], wide: 0.18 },
  ];
  const large = 5.6 * scale;
  const main = lineOfWords(name, { x, y: 0, size: large, weight: 'bold', room }, measure, 2.4 * scale);
  const height = main.kind === 'text' ? main.size : large;
  let y = rule + 0.5 + height * 0.86;
  marks.push({ ...main, y } as Mark);
  const small = 2.35 * scale;
  y += small * 1.4;
  for (const row of rows) {
    const left = Math.floor((floor - y) / (small * 1.22)) + 1;
    if (left < 1) break;
    // Beside the drawing there is less room.
    const narrow = y + small * 1.22 > drawing.top ? drawing.width : 0;
    const set = rowsOfWords(row, { x, y, size: small, room: room - narrow, rows: Math.min(left, 3) }, measure);
    marks.push(...set);
    y += set.length * small * 1.22;
  }
  return marks;
}

/**
 * A label: the symbol at the left with its code beneath it for people, at the right the words, and at the foot of them the
 * little section where the thing has one.
 * @param size millimetres; from 38 × 21 up
 */
export function labelMarks(
  facts: LabelFacts,
  { size, symbol, measure }: { size: Size; symbol: SymbolModules; measure: Measure },
): readonly Mark[] {
  const frame = frameOf(size);
  const { pad, side, left, room } = frame;
  const foot = size.height - pad;
  const drawing = facts.section === undefined ? 0 : Math.min(size.height * 0.36, room * 0.8, 15);
  const scale = drawing / compactBox[3];
  const beneath = {
    x: pad,
    y: foot,
    size: BENEATH,
    room: size.width - 2 * pad - (drawing > 0 ? compactBox[2] * scale + 1 : 0),
  };
  const code = lineOfWords(facts.beneath ?? codeInGroups(facts.code), beneath, measure, 1.6);
  const beside = beneath.x + (code.kind === 'text' ? code.width : 0) > left;
  const floor = foot - (beside ? BENEATH + 0.9 : 0.2);
  const taken = { top: drawing > 0 ? foot - drawing : foot, width: drawing > 0 ? compactBox[2] * scale + 1 : 0 };
  return [
    symbolMark(symbol, { x: pad, y: pad, side }),
    code,
    ...words(facts, frame, { measure, floor, drawing: taken }),
    ...(facts.section === undefined
      ? []
      : [
          {
            kind: 'shapes' as const,
            x: size.width - pad - (compactBox[0] + compactBox[2]) * scale,
            y: foot - (compactBox[1] + compactBox[3]) * scale,
            scale,
            shapes: compactShapes({ ...facts.section, fine: drawing >= FINE_FROM }).flatMap(({ shapes }) => shapes),
          },
        ]),
  ];
}
