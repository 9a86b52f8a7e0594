import type { Preview } from '#contracts/readings.ts';
import type { DimensionDefinition } from '#domain/metrology/dimension.ts';
import { evaluateDimension } from '#domain/metrology/evaluate.ts';
import type { Finding } from '#domain/metrology/finding.ts';
import { coarsestOf } from '#domain/units/printed-figures.ts';
import { type DimensionOnSheet, limitsFor, limitsOnWire, standardClass } from '#features/specs/service.ts';
import { evaluateTouched, roundsBefore } from '../judging/evaluating.ts';
import { findingOnWire } from '../judging/finding-wire.ts';
import { type Measured, materialOf, type PartOfPlace, partsOfRound } from '../judging/material.ts';
import type { ReadingRow } from '../judging/queries.ts';
import type { JobOnBench } from '../judging/service.ts';
import { type Reader, understandBatch } from './batch.ts';
import { isQuestion } from './faults.ts';
import type { Draft, Understood } from './keying.ts';
import { intervalSeenOnWire, valueSeenOnWire } from './reading-wire.ts';

const sizeClassIn = (partOf: PartOfPlace, dimension: DimensionOnSheet): string =>
  partOf(dimension.place.code)?.sizeClass ?? standardClass;

const onWire = (
  finding: Finding,
  dimension: DimensionOnSheet,
  of: { readonly partOf: PartOfPlace; readonly rows: readonly Measured[]; readonly bench: JobOnBench },
) => {
  const { sizeClass, limits } = limitsFor(dimension, sizeClassIn(of.partOf, dimension));
  const codes = new Set(of.rows.map(({ instrumentCode }) => instrumentCode));
  return findingOnWire(finding, {
    name: dimension.name,
    print: dimension,
    limits: limitsOnWire(limits, sizeClass, dimension),
    resolution: coarsestOf(
      of.bench.register.filter(({ code }) => codes.has(code)),
      dimension.kind,
    ),
  });
};

/** The same dimension at one position only, for a verdict on a single figure; spreads and felt play have none. */
function atOnePosition(definition: DimensionDefinition, position: string): DimensionDefinition | undefined {
  const positions = definition.positions.filter(({ code }) => code === position);
  switch (definition.method.type) {
    case 'single':
    case 'maximum':
    case 'minimum':
    case 'mean':
    case 'size':
      return { ...definition, positions, method: { type: 'single' } };
    case 'interval':
      return { ...definition, positions };
    case 'range':
    case 'out-of-round':
    case 'taper':
    case 'difference':
    case 'ratio':
    case 'stated':
    case 'felt':
      return undefined;
  }
}

function aloneOf(reading: Understood, bench: JobOnBench, partOf: PartOfPlace) {
  const dimension = bench.sheet.dimensions.find(({ code }) => code === reading.dimension);
  const material = materialOf({ sheet: bench.sheet, readings: [reading], register: bench.register, partOf });
  const definition = material.definitions.find(({ code }) => code === reading.dimension);
  if (dimension === undefined || definition === undefined) return null;
  const alone = atOnePosition(definition, reading.position);
  if (alone === undefined) return null;
  const evaluation = evaluateDimension({ ...material, dimension: alone.code, sheet: [alone], on: reading.readOn });
  return evaluation.ok ? onWire(evaluation.finding, dimension, { partOf, rows: [reading], bench }) : null;
}

/** What keeping these readings would say, with what stands; nothing is kept. */
export function previewOf(
  drafts: readonly Draft[],
  bench: JobOnBench,
  of: { readonly reader: Reader; readonly standing: readonly ReadingRow[] },
): Preview {
  const batch = understandBatch(drafts, bench, { ...of, free: true });
  const typed = batch.readings.map(({ reading }) => reading);
  const round = drafts[0]?.round;
  const replaced = (row: ReadingRow) =>
    typed.some(
      (reading) =>
        reading.dimension === row.dimension && reading.position === row.position && reading.repeat === row.repeat,
    );
  const rows: readonly Measured[] = [...of.standing.filter((row) => row.round === round && !replaced(row)), ...typed];
  const partOf = partsOfRound(bench.parts, rows, { sheet: bench.sheet });
  const touched = new Set(drafts.map(({ dimension }) => dimension));
  const evaluated = evaluateTouched({
    ...bench,
    rows,
    partOf,
    touched,
    earlier: round === undefined ? [] : roundsBefore(round, of.standing),
  });
  return {
    typed: drafts.map((draft, index) => {
      const reading = batch.readings.find((one) => one.index === index)?.reading;
      const faults = [...batch.faults, ...batch.questions].filter(
        (fault, at, all) => fault.index === index && all.findIndex((f) => f.detail === fault.detail) === at,
      );
      return {
        position: draft.position,
        repeat: draft.repeat,
        value: reading === undefined ? null : valueSeenOnWire(reading),
        interval: reading === undefined ? null : intervalSeenOnWire(reading),
        questions: faults.map((fault) => ({
          code: fault.code,
          words: fault.detail,
          suggestion: fault.suggestion ?? null,
          refused: !isQuestion(fault),
        })),
        alone: reading === undefined ? null : aloneOf(reading, bench, partOf),
      };
    }),
    findings: evaluated.workedOut.map((of) => onWire(of.finding, of.dimension, { partOf, rows: of.rows, bench })),
    missing: [...evaluated.missing],
    crossChecks: [...evaluated.crossChecks],
    warnings: [...batch.warnings],
  };
}
