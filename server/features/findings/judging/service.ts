import type { CrossCheck, Finding as FindingOnWire, Findings, MissingPositions } from '#contracts/findings.ts';
import type { Bounds } from '#domain/metrology/dimension.ts';
import type { Finding } from '#domain/metrology/finding.ts';
import { warningText } from '#domain/metrology/wording.ts';
import { type Round, rounds } from '#domain/obligations/disposition.ts';
import { obligationWords } from '#domain/obligations/words.ts';
import { coarsestOf, printedFigures } from '#domain/units/printed-figures.ts';
import { limitsFor, type Sheet, specOf, standardClass } from '#features/specs/service.ts';
import { type Act, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { nothingSettled, reopenProven, type Settled, settle, settledTogether } from '../obligations/settling.ts';
import { evaluateTouched, roundsBefore, type WorkedOut } from './evaluating.ts';
import { keptOnWire } from './finding-wire.ts';
import { type PartOfPlace, partsOfRound } from './material.ts';
import {
  type FindingRecord,
  type FindingRow,
  type FittedPartRow,
  findFindings,
  findFittedParts,
  findInstruments,
  findJobFacts,
  findReadings,
  type InstrumentRow,
  insertFinding,
  type JobFacts,
  type KeptLimits,
  type ReadingRow,
} from './queries.ts';

export { findingOnWire } from './finding-wire.ts';

/** What judging needs of a job: read once a write, after the engine is locked. */
export interface JobOnBench {
  readonly job: JobFacts;
  readonly sheet: Sheet;
  readonly register: readonly InstrumentRow[];
  readonly parts: readonly FittedPartRow[];
}

export async function jobOnBench(sql: Sql, jobId: string): Promise<JobOnBench> {
  const job = found(await findJobFacts(sql, jobId), 'such job');
  const [sheet, register, parts] = await Promise.all([
    specOf(sql, job.revisionId),
    findInstruments(sql),
    findFittedParts(sql, job.engineId),
  ]);
  return { job, sheet, register, parts };
}

export interface Outcome {
  readonly findings: readonly FindingOnWire[];
  readonly missing: readonly MissingPositions[];
  readonly crossChecks: readonly CrossCheck[];
  readonly settled: Settled;
}

const kept = ({ low, high }: Bounds) => ({ low: low ?? null, high: high ?? null });

function limitsKept(of: WorkedOut<ReadingRow>['dimension'], partOf: PartOfPlace): KeptLimits {
  const { sizeClass, limits } = limitsFor(of, partOf(of.place.code)?.sizeClass ?? standardClass);
  return { sizeClass, standard: kept(limits.standard), service: kept(limits.service) };
}

function figuresOf({ value }: Finding): Pick<FindingRecord, 'valueType' | 'low' | 'high'> {
  switch (value.type) {
    case 'point':
      return { valueType: 'point', low: value.value, high: value.value };
    case 'felt':
      return { valueType: 'felt', low: value.present ? 1 : 0, high: value.present ? 1 : 0 };
    case 'interval':
    case 'span':
      return { valueType: value.type, low: value.low, high: value.high };
  }
}

interface Judging extends JobOnBench {
  readonly round: Round;
  readonly partOf: PartOfPlace;
  readonly judgedById: string;
  readonly crossChecks: readonly CrossCheck[];
}

function recordOf(of: WorkedOut<ReadingRow>, by: Judging, supersedesId: string | null): FindingRecord {
  const { dimension, finding, rows } = of;
  const { job, sheet, register, partOf } = by;
  const part = partOf(dimension.place.code);
  const codes = new Set(rows.map(({ instrumentCode }) => instrumentCode));
  return {
    id: newId(),
    jobId: job.id,
    engineId: job.engineId,
    fittedPartId: part?.id ?? null,
    revisionId: sheet.revision.id,
    dimension: dimension.code,
    name: dimension.name,
    round: by.round,
    kind: dimension.kind,
    unit: dimension.unit,
    decimals: dimension.decimals,
    ...figuresOf(finding),
    u: finding.uncertainty.standard,
    dof: finding.uncertainty.effectiveDegreesOfFreedom,
    guard: finding.guardBand,
    rule: finding.rule,
    verdict: finding.verdict,
    pPastLow: finding.probabilityPast.low,
    pPastHigh: finding.probabilityPast.high,
    margin: finding.margin,
    nearestSide: finding.nearestLimit?.side ?? null,
    nearestLimit: finding.nearestLimit?.value ?? null,
    inside: dimension.inside,
    limits: limitsKept(dimension, partOf),
    budget: finding.uncertainty.budget,
    warnings: finding.warnings.map((warning) => ({ ...warning, words: warningText(warning) })),
    instruments: register.flatMap((row) => {
      const reading = rows.find(({ instrumentCode }) => instrumentCode === row.code);
      if (reading === undefined || !codes.has(row.code)) return [];
      return {
        code: row.code,
        name: row.name,
        kind: row.kind,
        resolution: row.resolution,
        mpe: row.mpe,
        zeroError: reading.zeroError,
        masterUncertainty: reading.masterU,
        repeatability: row.repeatability,
        calibrationDue: row.calibrationDueOn,
        drawing: {
          repeatabilityDof: row.repeatabilityDof,
          localU: row.localU,
          alphaPpb: row.alphaPpb,
          alphaUPpb: row.alphaUPpb,
          blades: row.blades,
        },
      };
    }),
    crossChecks: by.crossChecks.filter(({ about }) => about.includes(dimension.code)),
    runningMinutes: job.runningMinutes,
    partMinutes: part === undefined ? null : Math.max(0, job.runningMinutes - part.fittedMinutes),
    formulaVersion: finding.formulaVersion,
    supersedesId,
    judgedById: by.judgedById,
  };
}

/** The newest finding of a chain; its readings may have been struck since. */
const tipOf = (findings: readonly FindingRow[], record: Pick<FindingRecord, 'dimension' | 'round' | 'fittedPartId'>) =>
  findings.findLast(
    (row) =>
      !row.superseded &&
      row.dimension === record.dimension &&
      row.round === record.round &&
      row.fittedPartId === record.fittedPartId,
  );

function saysTheSame(tip: FindingRow, record: FindingRecord, readingIds: readonly string[]): boolean {
  const facts = (of: FindingRecord) =>
    JSON.stringify([of.valueType, of.low, of.high, of.u, of.guard, of.rule, of.verdict, of.formulaVersion]);
  const limits = ({ sizeClass, standard, service }: KeptLimits) =>
    JSON.stringify([sizeClass, standard.low, standard.high, service.low, service.high]);
  return (
    !tip.withdrawn &&
    facts(tip) === facts(record) &&
    limits(tip.limits) === limits(record.limits) &&
    [...readingIds].sort().join() === [...tip.readingIds].sort().join()
  );
}

async function keep(
  act: Act,
  of: WorkedOut<ReadingRow>,
  by: Judging & { readonly findings: readonly FindingRow[] },
): Promise<{ readonly row: FindingRow; readonly settled: Settled } | undefined> {
  const place = {
    dimension: of.dimension.code,
    round: by.round,
    fittedPartId: by.partOf(of.dimension.place.code)?.id ?? null,
  };
  const tip = tipOf(by.findings, place);
  const record = recordOf(of, by, tip?.id ?? null);
  const readingIds = of.rows.map(({ id }) => id);
  if (tip !== undefined && saysTheSame(tip, record, readingIds)) return undefined;
  const judgedAt = await insertFinding(act.sql, record, readingIds);
  const { dimension, finding } = of;
  const settled = await settle(act, {
    ...record,
    words: obligationWords(finding, {
      name: dimension.name,
      round: by.round,
      printed: printedFigures({
        unit: dimension.unit,
        decimals: dimension.decimals,
        resolution: coarsestOf(record.instruments, dimension.kind),
      }),
      mendable: {
        method: dimension.method.type,
        plated: dimension.place.plated,
        sizeClasses: [...dimension.limits.keys()].filter(
          (sizeClass) => sizeClass !== standardClass && sizeClass !== record.limits.sizeClass,
        ),
      },
    }),
  });
  const row = { ...record, judgedByName: act.actor.name, judgedAt, jobNumber: by.job.number, readingIds };
  return { row: { ...row, withdrawn: false, superseded: false }, settled };
}

export interface Change {
  readonly round: Round;
  /** Codes of the dimensions whose readings changed. */
  readonly touched: ReadonlySet<string>;
  /** The part whose reading was struck; left out: what is fitted now. */
  readonly subject?: string | null;
  /** Why a proof that rested on the readings is withdrawn, where nothing can take its place. */
  readonly reason?: string;
}

/** A finding whose reading was struck and that nothing could take the place of proves nothing any more. */
async function withdrawUnproven(act: Act, jobId: string, reason: string): Promise<Settled> {
  const withdrawn = (await findFindings(act.sql, jobId)).filter((row) => row.withdrawn && !row.superseded);
  const settled: Settled[] = [];
  for (const row of withdrawn) settled.push(await reopenProven(act, row, { reason }));
  return settledTogether(settled);
}

/**
 * Judges a round anew after its readings changed: every dimension that can be worked out and no longer says what the
 * standing finding says gets a finding that supersedes it, with its obligations. The caller holds the engine.
 */
export async function judgeRound(act: Act, bench: JobOnBench, change: Change): Promise<Outcome> {
  const { sql } = act;
  const { round, touched, subject } = change;
  const readings = await findReadings(sql, bench.job.id);
  const rows = readings.filter((row) => row.round === round);
  const findings = await findFindings(sql, bench.job.id);
  const partOf = partsOfRound(bench.parts, rows, { sheet: bench.sheet, ...(subject === undefined ? {} : { subject }) });
  const evaluated = evaluateTouched({ ...bench, rows, partOf, touched, earlier: roundsBefore(round, readings) });
  const by = { ...bench, round, partOf, judgedById: act.actor.id, findings, crossChecks: evaluated.crossChecks };
  const changed: FindingRow[] = [];
  const settled: Settled[] = [];
  for (const workedOut of evaluated.workedOut) {
    const result = await keep(act, workedOut, by);
    if (result === undefined) continue;
    changed.push(result.row);
    settled.push(result.settled);
  }
  settled.push(change.reason === undefined ? nothingSettled : await withdrawUnproven(act, bench.job.id, change.reason));
  return {
    findings: changed.map(keptOnWire),
    missing: evaluated.missing,
    crossChecks: evaluated.crossChecks,
    settled: settledTogether(settled),
  };
}

/** A finding that another sheet would say otherwise; null: there is none by that sheet. */
export interface JudgedOtherwise {
  readonly dimension: string;
  readonly name: string;
  readonly round: Round;
  readonly before: FindingRow['verdict'] | null;
  readonly after: FindingRow['verdict'] | null;
}

const stands = ({ superseded, withdrawn }: FindingRow): boolean => !superseded && !withdrawn;

/** What the readings of a job come to by the sheet of `bench`, where that differs from what stands; keeps nothing. */
export async function judgedOtherwise(sql: Sql, bench: JobOnBench): Promise<readonly JudgedOtherwise[]> {
  const readings = await findReadings(sql, bench.job.id);
  const standing = (await findFindings(sql, bench.job.id)).filter(stands);
  return rounds.flatMap((round) => {
    const rows = readings.filter((row) => row.round === round);
    const partOf = partsOfRound(bench.parts, rows, { sheet: bench.sheet });
    const touched = everyDimension(bench.sheet);
    const { workedOut } = evaluateTouched({ ...bench, rows, partOf, touched, earlier: roundsBefore(round, readings) });
    const before = standing.filter((row) => row.round === round);
    const now = workedOut.map(({ dimension, finding }) => ({
      dimension: dimension.code,
      name: dimension.name,
      round,
      before: before.findLast((row) => row.dimension === dimension.code)?.verdict ?? null,
      after: finding.verdict,
    }));
    const gone = before
      .filter(({ dimension }) => !now.some((one) => one.dimension === dimension))
      .map(({ dimension, name, verdict }) => ({ dimension, name, round, before: verdict, after: null }));
    return [...now, ...gone].filter((one) => one.before !== one.after);
  });
}

const everyDimension = ({ dimensions }: Sheet): ReadonlySet<string> => new Set(dimensions.map(({ code }) => code));

/** Judges every round anew by the sheet of `bench`, as when the job was moved to another revision. */
export async function judgeAnew(act: Act, bench: JobOnBench): Promise<readonly Outcome[]> {
  const readings = await findReadings(act.sql, bench.job.id);
  const outcomes: Outcome[] = [];
  for (const round of rounds) {
    if (!readings.some((row) => row.round === round)) continue;
    outcomes.push(await judgeRound(act, bench, { round, touched: everyDimension(bench.sheet) }));
  }
  return outcomes;
}

/** Every finding of a job, superseded and withdrawn ones too, in the order in which they were judged. */
export async function findingsOfJob(sql: Sql, jobId: string): Promise<Findings> {
  found(await findJobFacts(sql, jobId), 'such job');
  return { items: (await findFindings(sql, jobId)).map(keptOnWire) };
}
