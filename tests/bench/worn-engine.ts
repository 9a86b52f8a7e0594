import type { DimensionDefinition, Limits, Method, Position } from '#domain/metrology/dimension.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation, Reading } from '#domain/metrology/reading.ts';
import { millikelvin, type Nanometres, nanometres } from '#domain/units/quantity.ts';

/** Everything that is measured of one worn single-cylinder four-stroke with four valves. All figures invented. */
export interface WornEngine {
  readonly sheet: readonly DimensionDefinition[];
  readonly instruments: readonly Instrument[];
  /** Readings of these dimensions when it has run so many hours; the later, the more worn. */
  readonly readings: (hours: number, dimensions?: readonly string[]) => readonly Reading[];
}

const mm = (millimetres: number): Nanometres => nanometres(Math.round(millimetres * 1e6));

const gauge = (code: string): Instrument => ({
  code,
  kind: code,
  kindOfQuantity: 'length',
  resolution: mm(0.001),
  mpe: mm(0.003),
  zeroError: mm(0.001),
  masterUncertainty: mm(0.0005),
  repeatability: { sd: mm(0.0012), degreesOfFreedom: 60 },
  alphaPerKelvin: 11.5e-6,
  alphaUncertaintyPerKelvin: 1e-6,
  calibrationDue: '2030-01-01',
  range: { low: mm(0), high: mm(200) },
});
const blades = [0.05, 0.08, 0.1, 0.13, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6];
const feelers: Instrument = {
  ...gauge('feelers'),
  blades: blades.map((thickness) => ({ thickness: mm(thickness), tolerance: mm(0.002) })),
};

interface Measured {
  readonly dimension: DimensionDefinition;
  readonly size: number;
  /** Millimetres an hour. */
  readonly wear: number;
  readonly repeats: number;
}

const upTo = (standard: number, service: number): Limits => ({
  standard: { high: mm(standard) },
  service: { high: mm(service) },
});
const places = (count: number): readonly Position[] =>
  Array.from({ length: count }, (_, index) => ({ code: `p${index + 1}` }));
const grid = (levels: number): readonly Position[] =>
  Array.from({ length: levels }, (_, level) =>
    ['along', 'across'].map((axis) => ({ code: `${level + 1} ${axis}`, level: level + 1, axis })),
  ).flat();

const dimensionOf = (
  code: string,
  method: Method,
  of: { readonly positions: readonly Position[]; readonly limits: Limits; readonly readingsOf?: string },
): DimensionDefinition => ({
  code,
  name: code,
  kind: 'length',
  method,
  rule: 'iso-14253-1-2017',
  material: { alphaPerKelvin: 23e-6, alphaUncertaintyPerKelvin: 1e-6 },
  ...of,
});

const measured = (
  code: string,
  method: Method,
  of: {
    readonly positions: readonly Position[];
    readonly size: number;
    readonly wear?: number;
    readonly repeats?: number;
  },
): Measured => ({
  dimension: dimensionOf(code, method, { positions: of.positions, limits: upTo(of.size + 0.02, of.size + 0.1) }),
  size: of.size,
  wear: of.wear ?? 0.0002,
  repeats: of.repeats ?? 1,
});

const worked = (code: string, method: Method, limits: Limits, readingsOf?: string): DimensionDefinition =>
  dimensionOf(code, method, { positions: [], limits, ...(readingsOf === undefined ? {} : { readingsOf }) });
const difference = (code: string, minuend: string, subtrahend: string): DimensionDefinition =>
  worked(code, { type: 'difference', minuend, subtrahend }, upTo(0.1, 0.3));

const bottom: readonly Measured[] = [
  measured('bore', { type: 'size', rule: 'per-level' }, { positions: grid(3), size: 88, repeats: 3 }),
  measured('piston', { type: 'single' }, { positions: places(1), size: 87.95, wear: -0.0002, repeats: 3 }),
  ...['top', 'second', 'rail 1', 'rail 2'].map((ring) =>
    measured(`gap ${ring}`, { type: 'interval' }, { positions: grid(2).slice(0, 2), size: 0.3, wear: 0.0006 }),
  ),
  measured('side top', { type: 'interval' }, { positions: places(4), size: 0.05 }),
  measured('pin', { type: 'minimum' }, { positions: grid(3), size: 19.995, wear: -0.0001, repeats: 2 }),
  measured('boss', { type: 'maximum' }, { positions: places(4), size: 20.005, repeats: 2 }),
  measured('small end', { type: 'maximum' }, { positions: places(4), size: 20.015, repeats: 2 }),
  measured('crank runout', { type: 'range' }, { positions: places(4), size: 0.02 }),
  measured('head face', { type: 'maximum' }, { positions: places(6), size: 0.02 }),
  measured('cylinder face', { type: 'maximum' }, { positions: places(6), size: 0.02 }),
];
const valves: readonly Measured[] = ['1', '2', '3', '4'].flatMap((valve) => [
  measured(`guide ${valve}`, { type: 'maximum' }, { positions: places(3), size: 5.01, repeats: 2 }),
  measured(`stem ${valve}`, { type: 'minimum' }, { positions: grid(3), size: 4.97, wear: -0.0001, repeats: 2 }),
  measured(`seat ${valve}`, { type: 'maximum' }, { positions: places(4), size: 1.1 }),
  measured(`lash ${valve}`, { type: 'interval' }, { positions: places(1), size: 0.1, wear: 0 }),
  measured(`lobe ${valve}`, { type: 'minimum' }, { positions: places(2), size: 36.5, wear: -0.0001, repeats: 2 }),
  measured(`base ${valve}`, { type: 'maximum' }, { positions: places(2), size: 28.5, wear: 0, repeats: 2 }),
  measured(`journal ${valve}`, { type: 'minimum' }, { positions: places(3), size: 21.97 }),
  measured(`cap ${valve}`, { type: 'maximum' }, { positions: places(3), size: 22.01 }),
]);
const read: readonly Measured[] = [...bottom, ...valves];

const derived: readonly DimensionDefinition[] = [
  worked('out-of-round', { type: 'out-of-round', rule: 'per-level' }, upTo(0.02, 0.05), 'bore'),
  worked('taper', { type: 'taper', rule: 'per-level' }, upTo(0.02, 0.05), 'bore'),
  difference('clearance', 'bore', 'piston'),
  difference('pin in piston', 'boss', 'pin'),
  difference('pin in rod', 'small end', 'pin'),
  ...['1', '2', '3', '4'].flatMap((valve) => [
    difference(`stem clearance ${valve}`, `guide ${valve}`, `stem ${valve}`),
    difference(`lift ${valve}`, `lobe ${valve}`, `base ${valve}`),
    difference(`oil clearance ${valve}`, `cap ${valve}`, `journal ${valve}`),
  ]),
];

const gapAt = (value: number): Observation => {
  const next = blades.findIndex((blade) => mm(blade) > value);
  const above = blades[next];
  const below = blades[next < 0 ? blades.length - 1 : next - 1];
  return { type: 'interval', low: mm(below ?? 0), high: above === undefined ? null : mm(above) };
};

const readingsOf = ({ dimension, size, wear, repeats }: Measured, hours: number): readonly Reading[] =>
  dimension.positions.flatMap((position, place) =>
    Array.from({ length: repeats }, (_, repeat): Reading => {
      const value = mm(size + wear * hours + 0.001 * ((place * 7 + repeat * 3) % 5));
      const byFeeler = dimension.method.type === 'interval';
      return {
        dimension: dimension.code,
        position: position.code,
        repeat: repeat + 1,
        observation: byFeeler ? gapAt(value) : { type: 'value', value },
        instrument: byFeeler ? 'feelers' : dimension.code.startsWith('bore') ? 'bore gauge' : 'micrometer',
        setting: 'today',
        temperature: { part: millikelvin(296_150), instrument: millikelvin(296_150), uncertaintyKelvin: 0.5 },
      };
    }),
  );

export const wornEngine: WornEngine = {
  sheet: [...read.map(({ dimension }) => dimension), ...derived],
  instruments: [gauge('bore gauge'), gauge('micrometer'), feelers],
  readings: (hours, dimensions) =>
    read
      .filter(({ dimension }) => dimensions?.includes(dimension.code) ?? true)
      .flatMap((each) => readingsOf(each, hours)),
};
