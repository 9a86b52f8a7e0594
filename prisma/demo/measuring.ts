import { type Bench, dimensionOf, type Round, tellKept } from './bench.ts';
import { judge } from './judging.ts';
import { key } from './keying.ts';
import type { Act } from './visit.ts';
import { seenOn } from './wear.ts';

/** What is read before an engine is opened, of each family. */
export const beforeOpening: readonly string[] = ['compression', 'leak-down'];
export const lashes: readonly string[] = ['lash-in-l', 'lash-in-r', 'lash-ex-l', 'lash-ex-r'];
const cylinder: readonly string[] = ['bore', 'piston', 'ring-gap-top', 'ring-gap-second'];
const smallEnd: readonly string[] = ['pin', 'pin-boss', 'small-end', 'rod-side', 'rod-radial'];
const faces: readonly string[] = ['cylinder-face', 'head-face'];
const valves: readonly string[] = ['in-l', 'in-r', 'ex-l', 'ex-r'].flatMap((valve) => [
  `guide-${valve}`,
  `stem-${valve}`,
]);
const cams: readonly string[] = ['intake', 'exhaust'].flatMap((side) => [
  `cam-lobe-${side}`,
  `cam-base-${side}`,
  `cam-runout-${side}`,
]);

const derived: Readonly<Record<string, readonly string[]>> = {
  bore: ['bore-out-of-round', 'bore-taper'],
  piston: ['clearance'],
  'pin-boss': ['pin-boss-clearance'],
  'small-end': ['small-end-clearance'],
  'chain-length': ['chain-stretch'],
};

/** The dimensions a top end is measured by; a thorough look takes head and cams too. */
export function topEnd(bench: Bench, thorough: boolean): readonly string[] {
  const all = [...cylinder, ...smallEnd, ...faces, ...(thorough ? [...valves, ...cams] : [])];
  const has = new Set(bench.visit.revision.sheet.dimensions.map(({ code }) => code));
  return [...all, 'ring-gap-oil-upper', 'ring-gap-oil-lower'].filter((code) => has.has(code));
}

export interface Measuring extends Act {
  readonly round: Round;
  readonly dimensions: readonly string[];
  readonly worn?: number;
  /** Minutes from one dimension to the next. */
  readonly apart?: number;
}

/** Reads the dimensions one after the other and judges each, with what is worked out of it. */
export function measure(bench: Bench, of: Measuring): void {
  const { visit } = bench;
  const has = new Set(visit.revision.sheet.dimensions.map(({ code }) => code));
  let { at } = of;
  for (const code of of.dimensions) {
    const act = { at, by: of.by, round: of.round };
    key(bench, {
      ...act,
      dimension: code,
      seen: seenOn(visit, code, { round: of.round, ...(of.worn === undefined ? {} : { worn: of.worn }) }),
    });
    judge(bench, { ...act, dimension: code });
    for (const next of derivedFrom(code)) if (has.has(next)) judge(bench, { ...act, dimension: next });
    tellKept(bench, act);
    at += (of.apart ?? 3) * 60_000;
  }
}

function derivedFrom(code: string): readonly string[] {
  const stem = /^stem-(?!clearance)(.*)$/.exec(code)?.[1];
  if (stem !== undefined) return [`stem-clearance-${stem}`];
  const base = /^cam-base-(.*)$/.exec(code)?.[1];
  if (base !== undefined) return [`cam-lift-${base}`];
  return derived[code] ?? [];
}

/** The dimensions to read anew so that a worked-out one can be judged again. */
export function readingsFor(bench: Bench, code: string): readonly string[] {
  const { method, readingsOf } = dimensionOf(bench.visit, code);
  if (method.type === 'difference') return [method.minuend, method.subtrahend];
  return [readingsOf ?? code];
}
