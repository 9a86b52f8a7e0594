import type { BenchDimension, BenchInstrument, BenchView } from '#contracts/bench.ts';
import { difference, printOf, quantity } from '#contracts/figures.ts';
import { rounds } from '#domain/obligations/disposition.ts';
import { hoursOf } from '#features/intake/service.ts';
import {
  type DimensionOnSheet,
  factsOnWire,
  limitsFor,
  limitsOnWire,
  placeOnWire,
  standardClass,
} from '#features/specs/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { evaluateTouched, roundsBefore } from '../judging/evaluating.ts';
import { keptOnWire, valueOfRow, valueOnWire } from '../judging/finding-wire.ts';
import { partsOfRound } from '../judging/material.ts';
import {
  type FindingRow,
  findFindingsOfEngine,
  findReadings,
  type InstrumentRow,
  type ReadingRow,
} from '../judging/queries.ts';
import { type JobOnBench, jobOnBench } from '../judging/service.ts';
import { findObligations, type ObligationRow } from '../obligations/queries.ts';
import { partOnWire } from '../parts/service.ts';
import { readingOnWire } from '../readings/reading-wire.ts';
import { suitable } from './suitable.ts';

function instrumentOnWire(row: InstrumentRow): BenchInstrument {
  const print = printOf(row);
  return {
    id: row.id,
    code: row.code,
    name: row.name,
    instrumentKind: row.instrumentKind,
    kind: row.kind,
    unit: row.unit,
    decimals: row.decimals,
    resolution: difference(row.resolution, print),
    maximumPermissibleError: difference(row.mpe, print),
    range: { low: quantity(row.rangeLow, print), high: quantity(row.rangeHigh, print) },
    check:
      row.checkedAt === null
        ? null
        : {
            zeroError: difference(row.zeroError ?? 0, print),
            master: row.master ?? '',
            checkedAt: row.checkedAt,
            today: row.checkedToday,
          },
    calibrationDue: row.calibrationDueOn,
    outOfCalibration: row.outOfCalibration,
    blades: row.blades.map(({ thickness, tolerance }) => ({
      thickness: quantity(thickness, print),
      tolerance: difference(tolerance, print),
    })),
  };
}

interface Facts {
  readonly readings: readonly ReadingRow[];
  readonly findings: readonly FindingRow[];
  readonly obligations: readonly ObligationRow[];
}

function dimensionOnBench(dimension: DimensionOnSheet, bench: JobOnBench, facts: Facts): BenchDimension {
  const part = bench.parts.find(({ placeCode, removed }) => placeCode === dimension.place.code && !removed);
  const { sizeClass, limits } = limitsFor(dimension, part?.sizeClass ?? standardClass);
  const own = facts.findings.filter((row) => row.dimension === dimension.code);
  const isHere = (row: FindingRow) => row.jobId === bench.job.id && row.fittedPartId === (part?.id ?? null);
  return {
    ...factsOnWire(dimension),
    limits: limitsOnWire(limits, sizeClass, dimension),
    part: part === undefined ? null : partOnWire(part),
    ...suitable(dimension, limits, bench.register),
    readings: facts.readings
      .filter((row) => row.dimension === dimension.code && row.fittedPartId === (part?.id ?? null))
      .map(readingOnWire),
    findings: own.filter(isHere).map(keptOnWire),
    earlier: own
      .filter((row) => !isHere(row))
      .map((row) => ({
        value: valueOnWire(valueOfRow(row), printOf(row)),
        jobNumber: row.jobNumber,
        round: row.round,
        hours: hoursOf(row.runningMinutes),
        samePart: row.fittedPartId !== null && row.fittedPartId === part?.id,
        judgedAt: row.judgedAt,
      })),
    openObligationIds: facts.obligations
      .filter((row) => row.dischargedAt === null && row.dimension === dimension.code)
      .map(({ id }) => id),
  };
}

function crossChecksOf(bench: JobOnBench, readings: readonly ReadingRow[]): BenchView['crossChecks'] {
  const touched = new Set(bench.sheet.dimensions.map(({ code }) => code));
  return rounds.flatMap((round) => {
    const rows = readings.filter((row) => row.round === round);
    if (rows.length === 0) return [];
    const partOf = partsOfRound(bench.parts, rows, { sheet: bench.sheet });
    return evaluateTouched({ ...bench, rows, partOf, touched, earlier: roundsBefore(round, readings) }).crossChecks;
  });
}

/** Everything a measuring bench needs for one job, in one reply: it is read when the network is there, and kept. */
export async function benchOf(sql: Sql, jobId: string): Promise<BenchView> {
  const bench = await jobOnBench(sql, jobId);
  const { job, sheet, register } = bench;
  const [readings, findings, obligations] = await Promise.all([
    findReadings(sql, jobId),
    findFindingsOfEngine(sql, job.engineId),
    findObligations(sql, jobId),
  ]);
  return {
    jobId: job.id,
    jobNumber: job.number,
    engineId: job.engineId,
    serial: job.serial,
    family: sheet.revision.familyName,
    hours: hoursOf(job.runningMinutes),
    handedBack: job.handedBack,
    revision: {
      id: sheet.revision.id,
      number: sheet.revision.number,
      figuresInvented: sheet.revision.figuresInvented,
    },
    places: sheet.places.map(placeOnWire),
    dimensions: sheet.dimensions.map((dimension) =>
      dimensionOnBench(dimension, bench, { readings, findings, obligations }),
    ),
    instruments: register.filter(({ retired }) => !retired).map(instrumentOnWire),
    crossChecks: [...crossChecksOf(bench, readings)],
  };
}
