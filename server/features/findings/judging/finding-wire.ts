import { difference, figure, type Print, printOf, quantity, quantityOrNull } from '#contracts/figures.ts';
import type {
  BudgetLine as BudgetLineOnWire,
  Finding as FindingOnWire,
  FoundValue,
  WorkedOutFinding,
} from '#contracts/findings.ts';
import type { Limits as LimitsOnWire } from '#contracts/specs.ts';
import { decisionRuleOf } from '#domain/metrology/dimension.ts';
import type { BudgetLine, Finding, FindingValue } from '#domain/metrology/finding.ts';
import { coverageFactor } from '#domain/metrology/guard-band.ts';
import { warningText } from '#domain/metrology/wording.ts';
import { findingWords } from '#domain/obligations/words.ts';
import { coarsestOf, printedFigures } from '#domain/units/printed-figures.ts';
import { quantityKindOf } from '#domain/units/quantity.ts';
import { unitOf } from '#domain/units/unit-table.ts';
import { hoursOf } from '#features/intake/service.ts';
import type { FindingRow, KeptLimits } from './queries.ts';

/** Base units as people read them, unrounded: figure and symbol. */
export const printedIn =
  (print: Print) =>
  (value: number): string =>
    `${figure(value, print)} ${unitOf(print.unit).symbol}`.trimEnd();

export function valueOnWire(value: FindingValue, print: Print): FoundValue {
  const text = (base: number | null) => (base === null ? null : figure(base, print));
  switch (value.type) {
    case 'point':
      return { type: 'point', low: text(value.value), high: text(value.value), unit: print.unit, play: null };
    case 'felt':
      return { type: 'felt', low: null, high: null, unit: print.unit, play: value.present };
    case 'interval':
    case 'span':
      return { type: value.type, low: text(value.low), high: text(value.high), unit: print.unit, play: null };
  }
}

/** A line kept by formula version 1 tells only these of itself. */
type KeptLine = Pick<BudgetLine, 'name' | 'formula' | 'contribution' | 'degreesOfFreedom'> & Partial<BudgetLine>;

function lineOnWire(line: KeptLine, print: Print): BudgetLineOnWire {
  const { standard, unit } = line;
  const own = (value: number) =>
    unit === 'base units' ? difference(value, print) : { value: String(value), unit: unit ?? '' };
  return {
    name: line.name,
    formula: line.formula,
    source: line.source ?? null,
    distribution: line.distribution ?? null,
    standardUncertainty: standard === undefined ? null : own(standard),
    sensitivity: line.sensitivity ?? null,
    correlation: line.correlation ?? null,
    contribution: difference(line.contribution, print),
    degreesOfFreedom: line.degreesOfFreedom,
  };
}

/** A finding as the wire tells it, whether it was kept or not. */
export function findingOnWire(
  finding: Finding,
  of: {
    readonly name: string;
    readonly print: Print;
    readonly limits: LimitsOnWire;
    /** The coarsest resolution it was read with, base units; null where none is known. */
    readonly resolution: number | null;
  },
): WorkedOutFinding {
  const { name, print, limits, resolution } = of;
  const { uncertainty, nearestLimit, margin } = finding;
  const factor = coverageFactor(uncertainty.effectiveDegreesOfFreedom);
  return {
    dimension: finding.dimension,
    name,
    verdict: finding.verdict,
    words: findingWords(finding, name, printedFigures({ ...print, resolution })),
    value: valueOnWire(finding.value, print),
    standardUncertainty: difference(uncertainty.standard, print),
    expandedUncertainty: difference(factor * uncertainty.standard, print),
    coverageFactor: factor,
    degreesOfFreedom: uncertainty.effectiveDegreesOfFreedom,
    rule: finding.rule,
    guardBand: difference(finding.guardBand, print),
    margin: margin === null ? null : difference(margin, print),
    nearestLimit:
      nearestLimit === null ? null : { side: nearestLimit.side, value: quantity(nearestLimit.value, print) },
    probabilityPast: finding.probabilityPast,
    limits,
    budget: uncertainty.budget.map((line) => lineOnWire(line, print)),
    warnings: finding.warnings.map((warning) => ({ code: warning.code, words: warningText(warning) })),
    formulaVersion: finding.formulaVersion,
  };
}

export function valueOfRow(row: Pick<FindingRow, 'valueType' | 'low' | 'high'>): FindingValue {
  switch (row.valueType) {
    case 'point':
      return { type: 'point', value: row.low };
    case 'felt':
      return { type: 'felt', present: row.low === 1 };
    case 'interval':
    case 'span':
      return { type: row.valueType, low: row.low, high: row.high };
  }
}

/** A kept finding back in the words of the metrology. */
export const findingOfRow = (row: FindingRow): Finding => ({
  dimension: row.dimension,
  kind: quantityKindOf(row.kind),
  value: valueOfRow(row),
  uncertainty: { standard: row.u, effectiveDegreesOfFreedom: row.dof, budget: row.budget },
  rule: decisionRuleOf(row.rule),
  guardBand: row.guard,
  verdict: row.verdict,
  margin: row.margin,
  nearestLimit:
    row.nearestSide === null || row.nearestLimit === null ? null : { side: row.nearestSide, value: row.nearestLimit },
  probabilityPast: { low: row.pPastLow, high: row.pPastHigh },
  warnings: row.warnings,
  formulaVersion: row.formulaVersion,
});

const keptLimitsOnWire = (limits: KeptLimits, print: Print): LimitsOnWire => ({
  sizeClass: limits.sizeClass,
  standard: {
    low: quantityOrNull(limits.standard.low, print),
    high: quantityOrNull(limits.standard.high, print),
  },
  service: { low: quantityOrNull(limits.service.low, print), high: quantityOrNull(limits.service.high, print) },
});

export function keptOnWire(row: FindingRow): FindingOnWire {
  const print = printOf(row);
  return {
    id: row.id,
    jobId: row.jobId,
    round: row.round,
    ...findingOnWire(findingOfRow(row), {
      name: row.name,
      print,
      limits: keptLimitsOnWire(row.limits, print),
      resolution: coarsestOf(row.instruments, row.kind),
    }),
    fittedPartId: row.fittedPartId,
    withdrawn: row.withdrawn,
    supersedesId: row.supersedesId,
    readingIds: [...row.readingIds],
    instruments: row.instruments.map(({ code }) => code),
    hours: hoursOf(row.runningMinutes),
    partHours: row.partMinutes === null ? null : hoursOf(row.partMinutes),
    judgedBy: { id: row.judgedById, name: row.judgedByName },
    judgedAt: row.judgedAt,
    crossChecks: [...row.crossChecks],
  };
}
