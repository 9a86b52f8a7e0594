import type { FindingFacts, Measured } from '#contracts/engines.ts';
import { type Print, printOf, rounded, roundedDifference, roundedOrNull } from '#contracts/figures.ts';
import type { Limits } from '#domain/metrology/dimension.ts';
import { guardOf, measuredValue } from '#features/floor/service.ts';
import { hoursOf } from '#features/intake/service.ts';
import { type DimensionOnSheet, limitsFor, type Sheet, standardClass } from '#features/specs/service.ts';
import type { FindingRow, LimitsKept } from './finding-queries.ts';

export const limitFacts = ({ standard, service }: Limits | LimitsKept, print: Print): FindingFacts['limits'] => ({
  standard: { low: roundedOrNull(standard.low, print), high: roundedOrNull(standard.high, print) },
  service: { low: roundedOrNull(service.low, print), high: roundedOrNull(service.high, print) },
});

export const findingFacts = (row: FindingRow): FindingFacts => ({
  id: row.id,
  jobId: row.jobId,
  round: row.round,
  value: measuredValue(row),
  u: roundedDifference(row.u, { ...printOf(row), decimals: row.decimals + 1 }),
  guard: guardOf(row.guard, printOf(row)),
  rule: row.rule,
  limits: limitFacts(row.limits, printOf(row)),
  nearestLimit:
    row.side === null || row.limit === null ? null : { side: row.side, value: rounded(row.limit, printOf(row)) },
  margin: row.margin === null || row.valueType === 'felt' ? null : roundedDifference(row.margin, printOf(row)),
  verdict: row.verdict,
  pPast: { low: row.pLow, high: row.pHigh },
  warnings: row.warnings.map(({ code, words }) => ({ code, words })),
  instruments: row.instruments.map(({ code }) => code),
  hours: hoursOf(row.minutes),
  partHours: row.partMinutes === null ? null : hoursOf(row.partMinutes),
  judgedBy: { id: row.judgedById, name: row.judgedBy },
  judgedAt: row.judgedAt,
  obligationId: row.obligationId,
  revision: row.revision,
  crossChecks: row.crossChecks.map((check) => ({ ...check, about: [...check.about] })),
});

/** Of each visit the newest round's finding; rows come the oldest visit first and the newest round last. */
export const newestOfEachVisit = <Row extends { readonly jobId: string }>(rows: readonly Row[]): readonly Row[] => [
  ...new Map(rows.map((row) => [row.jobId, row])).values(),
];

/** What is found under one code on this visit and the earlier ones. */
interface Found {
  readonly rows: readonly FindingRow[];
  readonly jobId: string;
}

const findingsOf = ({ rows, jobId }: Found) =>
  rows
    .filter((row) => row.jobId === jobId)
    .toReversed()
    .map(findingFacts);

/** Rows are in order of visits, so the earlier ones are those before this visit's. */
function earlierOf({ rows, jobId }: Found): Measured['earlier'] {
  const ofThisVisit = rows.findIndex((row) => row.jobId === jobId);
  const before = ofThisVisit < 0 ? rows.filter((row) => row.jobId !== jobId) : rows.slice(0, ofThisVisit);
  return newestOfEachVisit(before)
    .filter(({ valueType }) => valueType === 'point')
    .map((row) => ({ hours: hoursOf(row.minutes), value: rounded(row.low, printOf(row)) }));
}

function measuredOf(dimension: DimensionOnSheet, sizeClass: string, found: Found): Measured {
  const { code, name, place, method, unit, decimals, inside, caution, source, page } = dimension;
  const judgedBy = limitsFor(dimension, sizeClass);
  return {
    dimension: code,
    name,
    place: { code: place.code, name: place.name },
    method: method.type,
    unit,
    decimals,
    inside,
    caution,
    source,
    page,
    limits: dimension.limits.size === 0 ? null : limitFacts(judgedBy.limits, dimension),
    sizeClass: judgedBy.sizeClass,
    findings: findingsOf(found),
    earlier: earlierOf(found),
  };
}

/** A finding by another revision of the sheet, whose dimension the bound one doesn't have. */
function strangerOf(found: Found): readonly Measured[] {
  const findings = findingsOf(found);
  const row = found.rows.findLast(({ jobId }) => jobId === found.jobId);
  if (row === undefined) return [];
  const { dimension, name, unit, decimals, limits } = row;
  return [
    {
      dimension,
      name,
      place: { code: '', name: '' },
      method: '',
      unit,
      decimals,
      inside: true,
      caution: '',
      source: '',
      page: '',
      limits: limitFacts(limits, printOf(row)),
      sizeClass: standardClass,
      findings,
      earlier: earlierOf(found),
    },
  ];
}

/** Every dimension of the bound sheet in its order, measured or not, then what was found beyond it. */
export function measuredBySheet(
  sheet: Sheet,
  of: { readonly rows: readonly FindingRow[]; readonly jobId: string; readonly sizeClassOf: (place: string) => string },
): Measured[] {
  const { rows, jobId, sizeClassOf } = of;
  const found = (code: string): Found => ({ rows: rows.filter(({ dimension }) => dimension === code), jobId });
  const onSheet = new Set(sheet.dimensions.map(({ code }) => code));
  const beyond = new Set(rows.map(({ dimension }) => dimension).filter((code) => !onSheet.has(code)));
  return [
    ...sheet.dimensions.map((dimension) =>
      measuredOf(dimension, sizeClassOf(dimension.place.code), found(dimension.code)),
    ),
    ...[...beyond].flatMap((code) => strangerOf(found(code))),
  ];
}
