import type { Reading } from '../../server/domain/metrology/reading.ts';
import { baseQuantity, millikelvin } from '../../server/domain/units/quantity.ts';
import { type Bench, dimensionOf, placeOf, type Round } from './bench.ts';
import { isoOf } from './clock.ts';
import type { DemoInstrument } from './instruments.ts';
import { baseOf, type DimensionFigures } from './spec-sheet.ts';
import { instrumentFor, type Seen } from './specimen.ts';
import { type Act, tell } from './visit.ts';
import { known, there } from './world.ts';

/** Standard uncertainty of a bench thermometer, mK. */
const thermometerMk = 500;

/** How much longer the gauge says a part is at this temperature than it is at 20 °C. */
function swelling(bench: Bench, dimension: DimensionFigures): number {
  const alpha = placeOf(bench.visit, dimension)?.alpha[0] ?? 0;
  return alpha === 0 ? 1 : 1 + (alpha - 11_500) * 1e-9 * (bench.celsius - 20);
}

const alphas = (bench: Bench, dimension: DimensionFigures): boolean =>
  dimension.kind === 'length' && (placeOf(bench.visit, dimension)?.alpha[0] ?? 0) > 0;

/** Keys what was seen of one dimension: figures as the gauge would show them, blades as they went in. */
export function key(
  bench: Bench,
  of: Act & {
    readonly round: Round;
    readonly dimension: string;
    readonly seen: readonly Seen[];
    readonly repeat?: number;
    readonly instrument?: string;
  },
): void {
  const { visit } = bench;
  const { world } = visit;
  const dimension = dimensionOf(visit, of.dimension);
  const instrument =
    of.instrument === undefined ? instrumentFor(dimension) : known(world.instruments, of.instrument).data;
  const register = known(world.instruments, instrument.code);
  const check = there(
    register.checks.findLast(({ at }) => at <= of.at),
    `a check of ${instrument.code}`,
  );
  bench.untold.count += of.seen.length;
  bench.untold.dimensions.push({ dimension: dimension.code, name: dimension.name });
  const warm = alphas(bench, dimension) && of.seen.some((seen) => 'value' in seen);
  const mk = warm ? Math.round((bench.celsius + 273.15) * 1_000) : null;
  for (const seen of of.seen) {
    const figures = figuresOf(bench, { dimension, instrument, seen });
    const row = world.rows.add('reading', {
      id: world.id('reading', of.at),
      job_id: visit.jobId,
      engine_id: visit.engine.id,
      fitted_part_id: visit.engine.fitted.get(dimension.place)?.id ?? null,
      dimension_code: dimension.code,
      position_code: seen.position,
      repeat: of.repeat ?? 1,
      round: of.round,
      keyed_text: figures.text,
      keyed_unit: dimension.unit,
      kind: dimension.kind,
      observation: figures.observation,
      value_low: figures.low,
      value_high: figures.high,
      go_stack: '{}',
      no_go_stack: '{}',
      rounded: false,
      instrument_id: 'felt' in seen ? null : register.id,
      check_id: 'felt' in seen ? null : check.id,
      part_mk: mk,
      instrument_mk: mk,
      temperature_u_mk: mk === null ? null : thermometerMk,
      confirm_reason: '',
      read_by_id: known(world.people, of.by),
      read_at: isoOf(of.at),
      recorded_at: isoOf(of.at),
    });
    const base = (value: number) => baseQuantity(dimension.kind, value);
    const observation: Reading['observation'] =
      'felt' in seen
        ? { type: 'felt', present: seen.felt }
        : figures.observation === 'interval'
          ? { type: 'interval', low: base(figures.low), high: figures.high === null ? null : base(figures.high) }
          : { type: 'value', value: base(figures.low) };
    const reading: Reading = {
      dimension: dimension.code,
      position: seen.position,
      repeat: of.repeat ?? 1,
      observation,
      ...('felt' in seen ? {} : { instrument: instrument.code, setting: check.id }),
      ...(mk === null
        ? {}
        : {
            temperature: {
              part: millikelvin(mk),
              instrument: millikelvin(mk),
              uncertaintyKelvin: thermometerMk / 1_000,
            },
          }),
    };
    bench.readings.push({ row, reading, instrument, struck: false });
  }
}

function figuresOf(
  bench: Bench,
  of: { readonly dimension: DimensionFigures; readonly instrument: DemoInstrument; readonly seen: Seen },
) {
  const { dimension, instrument, seen } = of;
  if ('felt' in seen) {
    const present = seen.felt ? 1 : 0;
    return { observation: 'felt', text: seen.felt ? 'play' : 'none', low: present, high: present } as const;
  }
  if ('go' in seen) {
    const blade = (thickness: number | null): string =>
      thickness === null ? 'none' : thickness.toFixed(dimension.decimals);
    const high = seen.noGo === null ? null : baseOf(seen.noGo, dimension.unit);
    return {
      observation: 'interval',
      text: `${blade(seen.go)} / ${blade(seen.noGo)}`,
      low: baseOf(seen.go ?? 0, dimension.unit),
      high,
    } as const;
  }
  const shown = seen.value * swelling(bench, dimension) + instrument.zeroError;
  const steps = Math.max(0, Math.round(shown / instrument.resolution));
  const text = (steps * instrument.resolution).toFixed(dimension.decimals);
  const low = baseOf(Number(text), dimension.unit);
  return { observation: 'value', text, low, high: low } as const;
}

/** Strikes the readings of one position, with the reason. */
export function strike(
  bench: Bench,
  of: Act & { readonly dimension: string; readonly position: string; readonly reason: string },
): void {
  const { world } = bench.visit;
  let text = '';
  for (const kept of bench.readings) {
    if (kept.struck || kept.reading.dimension !== of.dimension || kept.reading.position !== of.position) continue;
    kept.struck = true;
    text = String(kept.row.keyed_text);
    world.rows.add('reading_strike', {
      reading_id: there(kept.row.id, 'a reading'),
      reason: of.reason,
      struck_by_id: known(world.people, of.by),
      struck_at: isoOf(of.at),
    });
  }
  tell(bench.visit, 'reading.struck', of, { dimension: of.dimension, position: of.position, text, reason: of.reason });
}
