import type { LooseFasteners } from '#contracts/loose-fasteners.ts';
import { readPastedPositions } from '#domain/spec-sheet/pasted-positions.ts';
import { blank, linesOf, plain, quantityOf } from './typed.ts';
import type { Keyed } from './use-keyed.ts';

type Place = { readonly x: string; readonly y: string };
type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly field: string; readonly detail: string };

export const mostPositions = 60;
const round = (value: number): string => String(Math.round(value * 1000) / 1000);
const number = (text: string | undefined): number =>
  /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain(text ?? '')) ? Number(plain(text ?? '')) : Number.NaN;

/** How the pane says what is wrong with a pattern; the words are the catalogue's. */
export interface PatternWords {
  readonly count: (least: number, most: number) => string;
  readonly above: string;
  readonly lineOf: (line: number, detail: string) => string;
  readonly orderOf: (count: number) => string;
  readonly stageOf: string;
  readonly pullOf: string;
}

function circle(keyed: Keyed, words: PatternWords): Read<readonly Place[]> {
  const [count, diameter] = [number(keyed.count), number(keyed.diameter)];
  if (!Number.isInteger(count) || count < 2 || count > mostPositions)
    return { ok: false, field: 'count', detail: words.count(2, mostPositions) };
  if (!(diameter > 0)) return { ok: false, field: 'diameter', detail: words.above };
  return {
    ok: true,
    value: Array.from({ length: count }, (_, index) => {
      const angle = (2 * Math.PI * index) / count;
      return { x: round((diameter / 2) * Math.sin(angle)), y: round((diameter / 2) * Math.cos(angle)) };
    }),
  };
}

/** Rows from the top, each from the left. */
function rectangle(keyed: Keyed, words: PatternWords): Read<readonly Place[]> {
  const [columns, rows] = [number(keyed.columns), number(keyed.rows)];
  const [across, up] = [number(keyed.across), number(keyed.up)];
  for (const [field, value] of [
    ['columns', columns],
    ['rows', rows],
  ] as const) {
    if (!Number.isInteger(value) || value < 1 || value > 30) return { ok: false, field, detail: words.count(1, 30) };
  }
  if (columns * rows > mostPositions)
    return { ok: false, field: 'rows', detail: words.count(1, Math.floor(mostPositions / columns)) };
  if (columns > 1 && !(across > 0)) return { ok: false, field: 'across', detail: words.above };
  if (rows > 1 && !(up > 0)) return { ok: false, field: 'up', detail: words.above };
  const at = (index: number, of: number, long: number) => (of === 1 ? 0 : (index / (of - 1) - 0.5) * long);
  return {
    ok: true,
    value: Array.from({ length: columns * rows }, (_, index) => ({
      x: round(at(index % columns, columns, across)),
      y: round(-at(Math.floor(index / columns), rows, up)),
    })),
  };
}

function pasted(keyed: Keyed, words: PatternWords): Read<readonly Place[]> {
  const read = readPastedPositions(keyed.positions ?? '', 'mm');
  if (read.ok) return { ok: true, value: read.positions };
  const detail = read.faults.map((fault) => words.lineOf(fault.line, fault.detail)).join(' ');
  return { ok: false, field: 'positions', detail };
}

function places(keyed: Keyed, words: PatternWords): Read<readonly Place[]> {
  if (keyed.pattern === 'circle') return circle(keyed, words);
  return keyed.pattern === 'rectangle' ? rectangle(keyed, words) : pasted(keyed, words);
}

/** A typed order: every number once. The positions are numbered anew by it. */
function inTypedOrder(all: readonly Place[], text: string, words: PatternWords): Read<readonly Place[]> {
  const numbers = text
    .trim()
    .split(/[\s,;]+/)
    .map(Number);
  const there = new Set(numbers);
  const found = numbers.flatMap((one) => all[one - 1] ?? []);
  return numbers.length === all.length && there.size === all.length && found.length === all.length
    ? { ok: true, value: found }
    : { ok: false, field: 'order', detail: words.orderOf(all.length) };
}

type Stages = NonNullable<LooseFasteners['stages']>;

/** "30", "30 N.m", "22 lbf.ft", "90°" or "90 deg": a line a stage. */
function stagesOf(text: string | undefined, words: PatternWords): Read<Stages> {
  const stages: Stages = [];
  for (const { line, cells } of linesOf((text ?? '').replaceAll('°', ' deg'))) {
    const [value = '', unit = 'N.m'] = cells;
    if (cells.length > 2 || Number.isNaN(number(value))) {
      return { ok: false, field: 'stages', detail: words.lineOf(line, words.stageOf) };
    }
    const said = unit.replace('·', '.');
    stages.push(said === 'deg' ? { angle: quantityOf(value, 'deg') } : { torque: quantityOf(value, said) });
  }
  return { ok: true, value: stages };
}

/** "bolt stage figure", a line a pull; the unit is its stage's. */
function pullsOf(
  text: string | undefined,
  stages: Stages,
  words: PatternWords,
): Read<NonNullable<LooseFasteners['pulls']>> {
  const pulls: NonNullable<LooseFasteners['pulls']> = [];
  for (const { line, cells } of linesOf(text)) {
    const [fastener, stage] = [Number(cells[0]), Number(cells[1])];
    const figure = cells[2];
    if (cells.length !== 3 || figure === undefined || !Number.isInteger(fastener) || !Number.isInteger(stage)) {
      return { ok: false, field: 'pulls', detail: words.lineOf(line, words.pullOf) };
    }
    const asked = stages[stage - 1];
    pulls.push({ fastener, stage, value: quantityOf(figure, asked?.angle?.unit ?? asked?.torque?.unit ?? 'N.m') });
  }
  return { ok: true, value: pulls };
}

export type FastenersAsked =
  | { readonly ok: true; readonly body: LooseFasteners; readonly places: readonly Place[] }
  | { readonly ok: false; readonly field: string; readonly detail: string };

/** What is asked of the loose bench, or which field can't be read as it stands. */
export function fastenersAsked(keyed: Keyed, words: PatternWords): FastenersAsked {
  const all = places(keyed, words);
  if (!all.ok) return all;
  const typed = keyed.ordering === 'typed' && !blank(keyed.order);
  const placed = typed ? inTypedOrder(all.value, keyed.order ?? '', words) : all;
  if (!placed.ok) return placed;
  const stages = stagesOf(keyed.stages, words);
  if (!stages.ok) return stages;
  const pulls = pullsOf(keyed.pulls, stages.value, words);
  if (!pulls.ok) return pulls;
  const body: LooseFasteners = {
    ...(blank(keyed.thread) ? {} : { thread: keyed.thread?.trim() ?? '' }),
    ...(blank(keyed.grade) ? {} : { propertyClass: keyed.grade?.trim() ?? '' }),
    reuse: keyed.reuse === 'inspect' || keyed.reuse === 'one-time' ? keyed.reuse : 'reuse',
    orderIsMakers: typed || keyed.ordering === 'numbered',
    positions: placed.value.map(({ x, y }, index) => ({
      number: index + 1,
      x: { value: x, unit: 'mm' },
      y: { value: y, unit: 'mm' },
    })),
    stages: stages.value,
    ...(pulls.value.length === 0 ? {} : { pulls: pulls.value }),
  };
  return { ok: true, body, places: placed.value };
}
