import type { KeptReadings, KeyReadings, Preview, StruckReading } from '#contracts/readings.ts';
import { isMeasured } from '#domain/metrology/dimension.ts';
import { rounds } from '#domain/obligations/disposition.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { rowRefusal } from '#platform/csv-file.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findReadings } from '../judging/queries.ts';
import { type JobOnBench, jobOnBench, judgeRound, type Outcome } from '../judging/service.ts';
import { settledTogether } from '../obligations/settling.ts';
import { type Batch, understandBatch } from './batch.ts';
import { columnOf, csvOf, readCsv } from './csv.ts';
import { refusalOf } from './faults.ts';
import type { Draft } from './keying.ts';
import { previewOf } from './preview.ts';
import { findReading, findToday, insertReadings, insertStrike } from './queries.ts';
import { readingOnWire } from './reading-wire.ts';

export const draftsOf = ({ round, dimension, readings, confirmReason }: KeyReadings): readonly Draft[] =>
  readings.map((reading) => ({ ...reading, round, dimension, confirmReason: confirmReason?.trim() ?? '' }));

const togetherOf = (outcomes: readonly Outcome[]): Omit<StruckReading, 'readingId'> => {
  const { opened, discharged, reopened } = settledTogether(outcomes.map(({ settled }) => settled));
  return {
    findings: outcomes.flatMap(({ findings }) => findings),
    missing: outcomes.flatMap(({ missing }) => missing),
    crossChecks: outcomes.flatMap(({ crossChecks }) => crossChecks),
    obligations: { opened: [...opened], discharged: [...discharged], reopened: [...reopened] },
  };
};

async function understood(act: Act, bench: JobOnBench, drafts: readonly Draft[]): Promise<Batch> {
  const standing = await findReadings(act.sql, bench.job.id);
  const on = await findToday(act.sql, act.happenedAt);
  return understandBatch(drafts, bench, { reader: { id: act.actor.id, name: act.actor.name, on }, standing });
}

/** Dimensions by the names that the sheet gives them: codes are for programs. */
const named = ({ sheet }: JobOnBench, codes: readonly string[]) =>
  codes.map((code) => ({ dimension: code, name: sheet.dimensions.find((one) => one.code === code)?.name ?? code }));

async function store(act: Act, bench: JobOnBench, batch: Batch): Promise<KeptReadings> {
  const { job } = bench;
  const readings = batch.readings.map(({ reading }) => reading);
  const ids = new Set(
    await insertReadings(
      act.sql,
      { jobId: job.id, engineId: job.engineId, readById: act.actor.id, readAt: act.happenedAt },
      readings,
    ),
  );
  const outcomes: Outcome[] = [];
  for (const round of rounds) {
    const touched = new Set(readings.filter((reading) => reading.round === round).map(({ dimension }) => dimension));
    if (touched.size > 0) outcomes.push(await judgeRound(act, bench, { round, touched }));
  }
  const kept = togetherOf(outcomes);
  await act.event('readings.kept', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      count: readings.length,
      dimensions: named(bench, [...new Set(readings.map(({ dimension }) => dimension))]),
      findings: kept.findings.map(({ dimension, name, verdict }) => ({ dimension, name, verdict })),
      obligations: kept.obligations,
    },
  });
  const rows = await findReadings(act.sql, job.id);
  return {
    readings: rows.filter(({ id }) => ids.has(id)).map(readingOnWire),
    ...kept,
    warnings: [...batch.warnings],
  };
}

/** Keeps readings and judges what they make possible; refused as a whole when one of them is wrong or asked about. */
export async function keepReadings(
  act: Act,
  of: { readonly jobId: string; readonly drafts: readonly Draft[] },
  refuse: (batch: Batch) => ProblemError | undefined = ({ faults }) => refusalOf(faults),
): Promise<KeptReadings> {
  const job = await openJob(act, of.jobId);
  const bench = await jobOnBench(act.sql, job.id);
  const batch = await understood(act, bench, of.drafts);
  const refusal = refuse(batch);
  if (refusal !== undefined) throw refusal;
  return store(act, bench, batch);
}

/** Strikes a reading: it stays to be seen, counts no more, and what rested on it is judged anew. */
export async function strikeReading(
  act: Act,
  of: { readonly id: string; readonly reason: string },
): Promise<StruckReading> {
  const before = found(await findReading(act.sql, of.id), 'such reading');
  const job = await openJob(act, before.jobId);
  const reading = found(await findReading(act.sql, of.id), 'such reading');
  if (reading.struck) throw new ProblemError('already-done', 'This reading was struck already.');
  const reason = of.reason.trim();
  await insertStrike(act.sql, { readingId: reading.id, reason, byId: act.actor.id });
  const bench = await jobOnBench(act.sql, job.id);
  const outcome = await judgeRound(act, bench, {
    round: reading.round,
    touched: new Set([reading.dimension]),
    subject: reading.fittedPartId,
    reason: `reading ${reading.text} ${reading.unit} at ${reading.position} was struck: ${reason}`,
  });
  const kept = togetherOf([outcome]);
  await act.event('reading.struck', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      readingId: reading.id,
      dimension: reading.dimension,
      name: named(bench, [reading.dimension])[0]?.name,
      position: reading.position,
      text: reading.text,
      reason,
      findings: kept.findings.map(({ dimension, name, verdict }) => ({ dimension, name, verdict })),
      obligations: kept.obligations,
    },
  });
  return { readingId: reading.id, ...kept };
}

/** What keeping them would say; reads only, so it takes no lock. */
export async function previewReadings(
  sql: Sql,
  of: { readonly jobId: string; readonly drafts: readonly Draft[]; readonly reader: { id: string; name: string } },
): Promise<Preview> {
  const bench = await jobOnBench(sql, of.jobId);
  const [standing, on] = await Promise.all([findReadings(sql, of.jobId), findToday(sql, undefined)]);
  return previewOf(of.drafts, bench, { reader: { ...of.reader, on }, standing });
}

/** Keeps the readings of a file: all of them, or none with every bad row named. */
export async function importReadings(
  act: Act,
  of: { readonly jobId: string; readonly text: string },
): Promise<KeptReadings> {
  const file = readCsv(of.text);
  if (!file.ok) throw rowRefusal(file.faults);
  const { rows } = file;
  return keepReadings(act, { jobId: of.jobId, drafts: rows.map(({ draft }) => draft) }, ({ faults }) =>
    faults.length === 0
      ? undefined
      : rowRefusal(
          faults.map(({ index, field, detail }) => ({ row: rows[index]?.row ?? 0, column: columnOf[field], detail })),
        ),
  );
}

/** A file to be filled in: one row a position of the sheet's dimensions. */
export async function readingsTemplate(sql: Sql, jobId: string): Promise<string> {
  const bench = await jobOnBench(sql, jobId);
  const standing = await findReadings(sql, jobId);
  const round = standing.at(-1)?.round ?? 'as received';
  const suggested = (kind: string, quantityKind: string) =>
    bench.register.find(
      (row) => !row.retired && row.kind === quantityKind && (kind === '' || row.instrumentKind === kind),
    )?.code ?? '';
  return csvOf(
    bench.sheet.dimensions
      .filter(({ readingsOf, method }) => readingsOf === undefined && isMeasured(method))
      .flatMap((dimension) =>
        dimension.positions.map(({ code }) => ({
          round,
          dimension: dimension.code,
          position: code,
          repeat: '1',
          unit: dimension.method.type === 'felt' ? '' : dimension.unit,
          instrument: dimension.method.type === 'felt' ? '' : suggested(dimension.instrumentKind, dimension.kind),
        })),
      ),
  );
}
