import {
  type Bounds,
  type DimensionDefinition,
  isMeasured,
  type Limits,
  operandsOf,
} from '../../server/domain/metrology/dimension.ts';
import { evaluateDimension } from '../../server/domain/metrology/evaluate.ts';
import type { Finding, Verdict } from '../../server/domain/metrology/finding.ts';
import type { Instrument } from '../../server/domain/metrology/instrument.ts';
import { warningText } from '../../server/domain/metrology/wording.ts';
import { obligationWords } from '../../server/domain/obligations/words.ts';
import { coarsestOf, printedFigures } from '../../server/domain/units/printed-figures.ts';
import { baseQuantity } from '../../server/domain/units/quantity.ts';
import { findUnitCode } from '../../server/domain/units/unit-table.ts';
import { type Bench, dimensionOf, placeOf, type Round } from './bench.ts';
import { isoOf } from './clock.ts';
import { bladeTolerance, type DemoInstrument } from './instruments.ts';
import { actOn, oblige } from './obligations.ts';
import { baseOf, type DimensionFigures, type LimitFigures } from './spec-sheet.ts';
import type { Act, Visit } from './visit.ts';
import { known, there } from './world.ts';

const boundsOf = (dimension: DimensionFigures, [low, high]: LimitFigures['standard']): Bounds => ({
  ...(low === null ? {} : { low: baseQuantity(dimension.kind, baseOf(low, dimension.unit)) }),
  ...(high === null ? {} : { high: baseQuantity(dimension.kind, baseOf(high, dimension.unit)) }),
});

function limitsOf(visit: Visit, dimension: DimensionFigures): { readonly sizeClass: string; readonly limits: Limits } {
  const fitted = String(visit.engine.fitted.get(dimension.place)?.size_class ?? 'standard');
  const sizeClass = dimension.limits[fitted] === undefined ? 'standard' : fitted;
  const { standard, service } = dimension.limits[sizeClass] ?? { standard: [null, null], service: [null, null] };
  return { sizeClass, limits: { standard: boundsOf(dimension, standard), service: boundsOf(dimension, service) } };
}

function definitionOf(visit: Visit, dimension: DimensionFigures): DimensionDefinition {
  const place = placeOf(visit, dimension);
  const { code, name, kind, method, positions, readingsOf } = dimension;
  return {
    code,
    name,
    kind,
    method,
    limits: limitsOf(visit, dimension).limits,
    rule: 'iso-14253-1-2017',
    plated: place?.plated ?? false,
    positions: positions.map((position) => ({
      code: position.code,
      ...(position.level === undefined ? {} : { level: position.level }),
      ...(position.axis === undefined ? {} : { axis: position.axis }),
    })),
    ...(readingsOf === undefined ? {} : { readingsOf }),
    ...(place === undefined || place.alpha[0] === 0
      ? {}
      : { material: { alphaPerKelvin: place.alpha[0] / 1e9, alphaUncertaintyPerKelvin: place.alpha[1] / 1e9 } }),
  };
}

function instrumentOf(data: DemoInstrument, dueOn: string): Instrument {
  const { kind, unit } = data;
  const base = (figure: number): number => baseOf(figure, unit);
  return {
    code: data.code,
    kind: data.what,
    kindOfQuantity: kind,
    range: { low: baseQuantity(kind, base(data.range[0])), high: baseQuantity(kind, base(data.range[1])) },
    resolution: base(data.resolution),
    mpe: base(data.mpe),
    zeroError: base(data.zeroError),
    masterUncertainty: base(data.masterU),
    ...(data.repeatability === null
      ? {}
      : { repeatability: { sd: base(data.repeatability[0]), degreesOfFreedom: data.repeatability[1] } }),
    alphaPerKelvin: 11_500 / 1e9,
    alphaUncertaintyPerKelvin: 1_000 / 1e9,
    calibrationDue: dueOn,
    ...(data.blades === undefined
      ? {}
      : { blades: data.blades.map((blade) => ({ thickness: base(blade), tolerance: bladeTolerance(blade) })) }),
  };
}

/** Works a dimension out of the visit's standing readings, keeps the finding and opens or discharges obligations. */
export function judge(bench: Bench, of: Act & { readonly round: Round; readonly dimension: string }): Verdict {
  const { visit } = bench;
  const { world } = visit;
  const { clock } = world;
  const dimension = dimensionOf(visit, of.dimension);
  const codes = sourcesOf(visit, dimension);
  const own = bench.readings.filter(
    ({ row, reading, struck }) => !struck && row.round === of.round && codes.includes(reading.dimension),
  );
  const used = [...new Set(own.map(({ instrument }) => instrument))];
  const evaluation = evaluateDimension({
    dimension: dimension.code,
    sheet: [...new Set([...codes, ...workedFrom(visit, dimension), dimension.code])].map((code) =>
      definitionOf(visit, dimensionOf(visit, code)),
    ),
    readings: own.map(({ reading }) => reading),
    instruments: used.map((data) => instrumentOf(data, clock.day(data.due))),
    on: clock.dayAfter(of.at, 0),
  });
  if (!evaluation.ok)
    throw new Error(`The demo's readings of ${dimension.code} cannot be judged: ${JSON.stringify(evaluation.refusal)}`);
  const { finding } = evaluation;
  const id = keepFinding(bench, of, { dimension, finding, used });
  for (const { row } of own)
    world.rows.add('finding_reading', { finding_id: id, reading_id: there(row.id, 'a reading') });
  settle(bench, of, { dimension, finding, id, used });
  bench.untold.findings.push({ dimension: dimension.code, name: dimension.name, verdict: finding.verdict });
  return finding.verdict;
}

function sourcesOf(visit: Visit, dimension: DimensionFigures): readonly string[] {
  const { method, code, readingsOf } = dimension;
  if (method.type === 'stated') return [];
  if (isMeasured(method)) return [readingsOf ?? code];
  return operandsOf(method).flatMap(([, of]) => sourcesOf(visit, dimensionOf(visit, of)));
}

/** The dimensions that one is worked out from, and those that they are worked out from in turn. */
const workedFrom = (visit: Visit, { method }: DimensionFigures): readonly string[] =>
  operandsOf(method).flatMap(([, of]) => [of, ...workedFrom(visit, dimensionOf(visit, of))]);

function valueColumns({ value }: Finding): {
  readonly value_type: string;
  readonly value_low: number;
  readonly value_high: number | null;
} {
  switch (value.type) {
    case 'point':
      return { value_type: 'point', value_low: value.value, value_high: value.value };
    case 'felt':
      return { value_type: 'felt', value_low: value.present ? 1 : 0, value_high: value.present ? 1 : 0 };
    case 'interval':
    case 'span':
      return { value_type: value.type, value_low: value.low, value_high: value.high };
  }
}

interface Judged {
  readonly dimension: DimensionFigures;
  readonly finding: Finding;
}

function keepFinding(
  bench: Bench,
  of: Act & { readonly round: Round },
  judged: Judged & { readonly used: readonly DemoInstrument[] },
): string {
  const { visit, newest } = bench;
  const { world } = visit;
  const { dimension, finding, used } = judged;
  const part = visit.engine.fitted.get(dimension.place);
  const id = world.id('finding', of.at);
  const chain = `${dimension.code}|${of.round}|${String(part?.id)}`;
  const { sizeClass, limits } = limitsOf(visit, dimension);
  const bounds = ({ low, high }: Bounds) => ({ low: low ?? null, high: high ?? null });
  world.rows.add('finding', {
    id,
    job_id: visit.jobId,
    engine_id: visit.engine.id,
    fitted_part_id: part?.id ?? null,
    revision_id: visit.revision.id,
    dimension_code: dimension.code,
    dimension_name: dimension.name,
    round: of.round,
    kind: dimension.kind,
    unit: dimension.unit,
    decimals: dimension.decimals,
    ...valueColumns(finding),
    u: finding.uncertainty.standard,
    dof: finding.uncertainty.effectiveDegreesOfFreedom,
    guard: finding.guardBand,
    rule: finding.rule,
    verdict: finding.verdict,
    p_past_low: finding.probabilityPast.low,
    p_past_high: finding.probabilityPast.high,
    margin: finding.margin,
    nearest_side: finding.nearestLimit?.side ?? null,
    nearest_limit: finding.nearestLimit?.value ?? null,
    inside: dimension.inside,
    limits: { sizeClass, standard: bounds(limits.standard), service: bounds(limits.service) },
    budget: finding.uncertainty.budget,
    warnings: finding.warnings.map((warning) => ({ ...warning, words: warningText(warning) })),
    instruments: used.map((data) => {
      const state = instrumentOf(data, world.clock.day(data.due));
      return {
        code: data.code,
        name: data.name,
        kind: data.kind,
        resolution: state.resolution,
        mpe: state.mpe,
        zeroError: state.zeroError,
        masterUncertainty: state.masterUncertainty,
        repeatability: state.repeatability?.sd ?? null,
        calibrationDue: state.calibrationDue ?? null,
        drawing: {
          repeatabilityDof: state.repeatability?.degreesOfFreedom ?? null,
          localU: null,
          alphaPpb: 11_500,
          alphaUPpb: 1_000,
          blades: state.blades ?? [],
        },
      };
    }),
    running_minutes: visit.minutes,
    part_minutes: part === undefined ? null : Math.max(0, visit.minutes - Number(part.fitted_minutes)),
    formula_version: finding.formulaVersion,
    supersedes_id: newest.get(chain) ?? null,
    judged_by_id: known(world.people, of.by),
    judged_at: isoOf(of.at),
  });
  newest.set(chain, id);
  return id;
}

/** A bad finding opens an obligation; a good one discharges those of its dimension. */
function settle(
  bench: Bench,
  of: Act & { readonly round: Round },
  judged: Judged & { readonly id: string; readonly used: readonly DemoInstrument[] },
): void {
  const { visit, obligations } = bench;
  const { dimension, finding, id, used } = judged;
  const open = obligations.filter((each) => !each.discharged && each.dimension === dimension.code);
  for (const each of open) actOn(bench, each, of, { act: 'discharged', findingId: id });
  if (finding.verdict === 'within standard' || finding.verdict === 'within service limit') return;
  const unit = findUnitCode(dimension.unit) ?? 'mm';
  const words = obligationWords(finding, {
    name: dimension.name,
    round: of.round,
    printed: printedFigures({
      unit,
      decimals: dimension.decimals,
      resolution: coarsestOf(
        used.map((data) => ({ kind: data.kind, resolution: instrumentOf(data, '').resolution })),
        dimension.kind,
      ),
    }),
    mendable: {
      method: dimension.method.type,
      plated: placeOf(visit, dimension)?.plated ?? false,
      sizeClasses: Object.keys(dimension.limits).filter(
        (sizeClass) => sizeClass !== 'standard' && sizeClass !== limitsOf(visit, dimension).sizeClass,
      ),
    },
  });
  oblige(bench, of, {
    words,
    inside: dimension.inside,
    dimension: dimension.code,
    round: of.round,
    cause: { finding_id: id },
  });
}
