import {
  type BenchCheck,
  clearanceCheck,
  type GapInterval,
  growthCheck,
  peopleCheck,
  taperCheck,
} from './cross-checks.ts';
import { type DimensionDefinition, isMeasured } from './dimension.ts';
import { evaluateDimension } from './evaluate.ts';
import type { Finding } from './finding.ts';
import { gatherPositions, type PositionValue } from './gathered-positions.ts';
import type { Instrument, IsoDate } from './instrument.ts';
import type { Reading } from './reading.ts';
import { mean } from './sample-statistics.ts';

type Readings = { readonly readings: readonly Reading[]; readonly instruments: readonly Instrument[] };

/** One round of measuring, and what it can be held against. */
export type RoundToCheck = Readings & {
  readonly sheet: readonly DimensionDefinition[];
  /** The day whose calibrations count. */
  readonly on: IsoDate;
  /** Rounds before it of the same parts, the newest last. */
  readonly earlier?: readonly Readings[];
  /** The readings of each who measured, where there are several. */
  readonly people?: readonly (Readings & { readonly name: string })[];
};

/** A check with what is checked and whose unit and decimals its figures are printed in. */
export type CheckMade = {
  readonly check: BenchCheck;
  readonly name: string;
  /** Code of the dimension as which its figures are printed. */
  readonly printedAs: string;
  /** Codes of the dimensions that were read for it. */
  readonly about: readonly string[];
};

/** A feeler in a clearance that is worked out too: its dimension is called as the clearance, with this behind. */
export const byFeeler = '-by-feeler';

const codeRead = ({ code, readingsOf }: DimensionDefinition): string => readingsOf ?? code;

const evaluated = (code: string, round: RoundToCheck, of: Readings = round): Finding | undefined => {
  const { sheet, on } = round;
  const { readings, instruments } = of;
  const evaluation = evaluateDimension({ dimension: code, sheet, readings, instruments, on });
  return evaluation.ok ? evaluation.finding : undefined;
};

const positionsOf = (
  definition: DimensionDefinition | undefined,
  { readings, instruments }: Readings,
): readonly PositionValue[] => {
  if (definition === undefined) return [];
  const gathered = gatherPositions(definition, readings, instruments);
  return gathered.ok ? gathered.positions : [];
};

const gapOf = ({ interval: { low, high } }: PositionValue): GapInterval => ({
  low,
  high: Number.isFinite(high) ? high : null,
});

/** Positions at the highest and at the lowest level that was measured; undefined when all are at one. */
const endsOf = (positions: readonly PositionValue[]) => {
  const levels = positions.flatMap(({ position }) => (position.level === undefined ? [] : [position.level]));
  const at = (level: number) => positions.filter(({ position }) => position.level === level);
  const [top, bottom] = [Math.min(...levels), Math.max(...levels)];
  return levels.length > 0 && top < bottom ? { top: at(top), bottom: at(bottom) } : undefined;
};

const middle = (positions: readonly PositionValue[]): number =>
  mean(positions.map(({ interval }) => (interval.low + interval.high) / 2));

/** A ring's end gap, by the code that sheets give it: nothing else about a gap tells that it is a ring's. */
const isRingGap = (code: string): boolean => code.startsWith('ring-gap');

const gapsIn = ({ sheet }: RoundToCheck) =>
  sheet.filter(({ method, code, kind }) => method.type === 'interval' && kind === 'length' && !code.endsWith(byFeeler));

const taperChecks = (round: RoundToCheck): readonly CheckMade[] => {
  const { sheet } = round;
  const [dimension, ...others] = sheet.filter(({ method }) => method.type === 'taper');
  if (dimension === undefined || others.length > 0) return [];
  const bore = codeRead(dimension);
  const ends = endsOf(
    positionsOf(
      sheet.find(({ code }) => code === bore),
      round,
    ),
  );
  const found = evaluated(dimension.code, round);
  if (ends === undefined || found?.value.type !== 'point') return [];
  const wider = middle(ends.top) >= middle(ends.bottom) ? 1 : -1;
  const taper = {
    value: wider * found.value.value,
    standard: found.uncertainty.standard,
    degreesOfFreedom: found.uncertainty.effectiveDegreesOfFreedom,
  };
  return gapsIn(round).flatMap((gap): readonly CheckMade[] => {
    const of = endsOf(positionsOf(gap, round));
    const [top, bottom] = [of?.top[0], of?.bottom[0]];
    if (top === undefined || bottom === undefined) return [];
    const check = taperCheck({ top: gapOf(top), bottom: gapOf(bottom) }, taper);
    return [{ check, name: gap.name, printedAs: dimension.code, about: [gap.code, bore] }];
  });
};

/** By how much the bore has grown, at the gap's level where it has one, else at the level that speaks for the gap most. */
const growthsOf = (
  gap: PositionValue,
  bore: { readonly before: readonly PositionValue[]; readonly after: readonly PositionValue[] },
): readonly number[] => {
  const grown = bore.after.flatMap(({ position, interval }) => {
    const before = bore.before.find((one) => one.position.code === position.code);
    return before === undefined ? [] : [{ level: position.level, by: interval.low - before.interval.low }];
  });
  const levels = new Set(grown.map(({ level }) => level));
  const meant = levels.has(gap.position.level) && gap.position.level !== undefined ? [gap.position.level] : [...levels];
  return meant.map((level) => mean(grown.filter((one) => one.level === level).map(({ by }) => by)));
};

const growthChecksSince = (earlier: Readings, round: RoundToCheck): readonly CheckMade[] => {
  const [bore, ...others] = round.sheet.filter(({ method, readingsOf }) => method.type === 'size' && !readingsOf);
  if (bore === undefined || others.length > 0) return [];
  const [then, now] = [evaluated(bore.code, round, earlier), evaluated(bore.code, round)];
  if (then === undefined || now === undefined) return [];
  const sizes = { before: positionsOf(bore, earlier), after: positionsOf(bore, round) };
  const standard = Math.hypot(then.uncertainty.standard, now.uncertainty.standard);
  return gapsIn(round)
    .filter(({ code }) => isRingGap(code))
    .flatMap((gap): readonly CheckMade[] => {
      const olds = positionsOf(gap, earlier);
      for (const position of positionsOf(gap, round)) {
        const old = olds.find((one) => one.position.code === position.position.code);
        const made = growthsOf(position, sizes).map((value) =>
          old === undefined
            ? undefined
            : growthCheck({ before: gapOf(old), after: gapOf(position) }, { value, standard }),
        );
        const check = made.find((one) => one?.agrees) ?? made[0];
        if (check === undefined) continue;
        return [{ check, name: gap.name, printedAs: bore.code, about: [gap.code, bore.code] }];
      }
      return [];
    });
};

/** Since the newest of the earlier rounds in which both were measured. */
const growthChecks = (round: RoundToCheck): readonly CheckMade[] => {
  const told = (round.earlier ?? []).toReversed().flatMap((earlier) => growthChecksSince(earlier, round));
  return told.filter(({ name }, index) => told.findIndex((one) => one.name === name) === index);
};

const endsFound = ({ value }: Finding): readonly [number, number] | undefined => {
  switch (value.type) {
    case 'point':
      return [value.value, value.value];
    case 'span':
      return value.high === null ? undefined : [value.low, value.high];
    case 'interval':
    case 'felt':
      return undefined;
  }
};

const clearanceChecks = (round: RoundToCheck): readonly CheckMade[] =>
  round.sheet.flatMap(({ code, method, name }): readonly CheckMade[] => {
    if (method.type !== 'difference') return [];
    const felt = round.sheet.find((one) => one.code === `${code}${byFeeler}` && one.method.type === 'interval');
    const [widest, smaller] = [evaluated(method.minuend, round), evaluated(method.subtrahend, round)];
    if (felt === undefined || widest === undefined || smaller === undefined) return [];
    const [sizes, pistons] = [endsFound(widest), endsFound(smaller)];
    if (sizes === undefined || pistons === undefined) return [];
    const own = (value: number, { uncertainty }: Finding) => ({
      value,
      standard: uncertainty.standard,
      degreesOfFreedom: uncertainty.effectiveDegreesOfFreedom,
    });
    return positionsOf(felt, round).map((position): CheckMade => {
      const gap = gapOf(position);
      const [least, most] = [sizes[0] - pistons[1], sizes[1] - pistons[0]];
      // Where the bore isn't the same all over, the feeler may have been anywhere between its ends.
      const nearest = gap.high !== null && gap.high < least ? least : Math.min(most, Math.max(least, gap.low));
      const check = clearanceCheck(gap, {
        bore: own(nearest + pistons[0], widest),
        piston: own(pistons[0], smaller),
      });
      return { check, name, printedAs: code, about: [felt.code, method.minuend, method.subtrahend] };
    });
  });

const peopleChecks = (round: RoundToCheck): readonly CheckMade[] => {
  const { people = [] } = round;
  if (people.length < 2) return [];
  return round.sheet.flatMap(({ code, name, method, readingsOf }): readonly CheckMade[] => {
    if (readingsOf !== undefined || !isMeasured(method)) return [];
    const results = people.flatMap((person) => {
      if (!person.readings.some(({ dimension }) => dimension === code)) return [];
      const finding = evaluated(code, round, person);
      if (finding?.value.type !== 'point') return [];
      const { standard, effectiveDegreesOfFreedom: degreesOfFreedom } = finding.uncertainty;
      return [{ name: person.name, value: finding.value.value, standard, degreesOfFreedom }];
    });
    const [first, ...others] = results;
    if (first === undefined) return [];
    return others
      .map((other) => peopleCheck(first, other))
      .filter(({ agrees }) => !agrees)
      .map((check) => ({ check, name, printedAs: code, about: [code] }));
  });
};

/**
 * Holds what was measured in one round against what else was: ring gaps at two heights against the taper, a gap's
 * growth against the bore's since an earlier round, a clearance by feeler against bore − piston, one person against
 * another (told only where they differ). Base units. What can't be worked out is not checked.
 */
export const benchChecksOf = (round: RoundToCheck): readonly CheckMade[] => [
  ...taperChecks(round),
  ...growthChecks(round),
  ...clearanceChecks(round),
  ...peopleChecks(round),
];
