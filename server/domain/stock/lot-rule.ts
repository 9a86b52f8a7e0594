import { formatQuantity } from '#domain/units/format-quantity.ts';
import type { Nanometres } from '#domain/units/quantity.ts';
import { type LotWish, sameGrade } from './lots.ts';

/**
 * By which rule lots are chosen for what a job wants of a part. `oldest`: any lot, the oldest first. `exact thickness`: a
 * shim of each of these thicknesses, in the order of choosing; where there is one of them and `othersAny` is false, every
 * piece is of it; with `othersAny` the pieces beyond them are of any thickness (a shim that is yet to be bought). `grade`:
 * lots that bear this mark, in small or large letters.
 */
export type LotRule =
  | { readonly rule: 'oldest' }
  | {
      readonly rule: 'exact thickness';
      readonly thicknesses: readonly Nanometres[];
      readonly othersAny: boolean;
    }
  | { readonly rule: 'grade'; readonly grade: string };

export const oldestFirst: LotRule = { rule: 'oldest' };

/** True where both rules want the same lots; one by exact thickness in the same order of choosing. */
export function sameRule(a: LotRule, b: LotRule): boolean {
  if (a.rule === 'grade') return b.rule === 'grade' && sameGrade(a.grade, b.grade);
  if (a.rule === 'oldest') return b.rule === 'oldest';
  return b.rule === 'exact thickness' && a.othersAny === b.othersAny && a.thicknesses.join() === b.thicknesses.join();
}

/** What a rule asks of the lots for so many pieces. */
export type RuleWish = Pick<LotWish, 'count' | 'thickness' | 'grade'>;

/** True where the rule lets a lot of this thickness (null: not known) and grade ('' : none) be taken for any of its pieces. */
export function meetsRule(rule: LotRule, lot: { readonly thickness: number | null; readonly grade: string }): boolean {
  switch (rule.rule) {
    case 'oldest':
      return true;
    case 'grade':
      return sameGrade(rule.grade, lot.grade);
    case 'exact thickness':
      return rule.othersAny || rule.thicknesses.some((nm) => nm === lot.thickness);
  }
}

/**
 * What is still to be found for `open` pieces of a line, whole and ≥ 0, that has `got` pieces of these thicknesses already
 * (in any order; only an exact rule looks at them): each wanted thickness that it has not got, then the rest. Where fewer
 * are open than thicknesses are wanted, those for which `there` says that one lies free come first.
 */
export function wishesUnder(
  rule: LotRule,
  of: {
    readonly open: number;
    readonly got: readonly number[];
    readonly there?: (thickness: Nanometres) => boolean;
  },
): readonly RuleWish[] {
  const { open } = of;
  if (open === 0) return [];
  if (rule.rule === 'oldest') return [{ count: open, thickness: null, grade: null }];
  if (rule.rule === 'grade') return [{ count: open, thickness: null, grade: rule.grade }];
  if (!rule.othersAny) return [{ count: open, thickness: rule.thicknesses[0] ?? null, grade: null }];
  const needed = without(rule.thicknesses, of.got);
  const rank = (nm: Nanometres): number => (of.there?.(nm) === false ? 1 : 0);
  const exact = needed.toSorted((a, b) => rank(a) - rank(b)).slice(0, open);
  const rest = open - exact.length;
  return [
    ...exact.map((thickness) => ({ count: 1, thickness, grade: null })),
    ...(rest > 0 ? [{ count: rest, thickness: null, grade: null }] : []),
  ];
}

/** How many pieces of a lot, of `open` that a line still wants, its rule lets it have. */
export function roomUnder(
  rule: LotRule,
  of: {
    readonly open: number;
    readonly got: readonly number[];
    readonly lot: { readonly thickness: number | null; readonly grade: string };
  },
): number {
  const { open, got, lot } = of;
  if (!meetsRule(rule, lot)) return 0;
  return wishesUnder(rule, { open, got, there: (nm) => nm === lot.thickness })
    .filter(({ thickness }) => thickness === null || thickness === lot.thickness)
    .reduce((sum, { count }) => sum + count, 0);
}

/** Of the wanted ones those that are not among the got, one for one. */
function without(wanted: readonly Nanometres[], got: readonly number[]): readonly Nanometres[] {
  const left = [...got];
  return wanted.filter((nm) => {
    const at = left.indexOf(nm);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** The rule in words that follow a count and a name: "in grade B", "2.175 mm exactly"; nothing for the oldest first. */
export function ruleWords(rule: LotRule): string {
  switch (rule.rule) {
    case 'oldest':
      return '';
    case 'grade':
      return `in grade ${rule.grade}`;
    case 'exact thickness':
      return `${[...new Set(rule.thicknesses)].map((nm) => `${thicknessText(nm)} mm`).join(' and ')} exactly`;
  }
}

/** Millimetres, three decimals, more only where there are more. */
const thicknessText = (nm: number): string => formatQuantity(nm, 'mm', 6).replace(/(\.\d{3}\d*?)0+$/, '$1');
