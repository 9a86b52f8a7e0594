import { describe, expect, test } from 'vitest';
import { benchChecksOf } from '#domain/metrology/bench-checks.ts';
import type { DimensionDefinition } from '#domain/metrology/dimension.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Reading } from '#domain/metrology/reading.ts';
import { baseQuantity } from '#domain/units/quantity.ts';

const mm = (value: number) => baseQuantity('length', Math.round(value * 1e6));
const none = { standard: { high: mm(200) }, service: {} };
const common = { kind: 'length', limits: none, rule: 'iso-14253-1-2017' } as const;
const one = [{ code: '1' }];

const bore: DimensionDefinition = {
  ...common,
  code: 'bore',
  name: 'Bore',
  method: { type: 'size', rule: 'per-level' },
  positions: [
    { code: 'A-across', level: 1, axis: 'across' },
    { code: 'A-along', level: 1, axis: 'along' },
  ],
};
const piston: DimensionDefinition = {
  ...common,
  code: 'piston',
  name: 'Piston',
  method: { type: 'single' },
  positions: one,
};
const clearance: DimensionDefinition = {
  ...common,
  code: 'clearance',
  name: 'Piston clearance',
  method: { type: 'difference', minuend: 'bore', subtrahend: 'piston' },
  positions: [],
};
const interval = (code: string): DimensionDefinition => ({
  ...common,
  code,
  name: code,
  method: { type: 'interval' },
  positions: one,
});

const gauge: Instrument = {
  code: 'BG',
  kind: '',
  kindOfQuantity: 'length',
  resolution: 1000,
  mpe: 1000,
  zeroError: 0,
  masterUncertainty: 0,
  repeatability: { sd: 500 },
};
const micrometer: Instrument = { ...gauge, code: 'MI' };
const feelers: Instrument = {
  ...gauge,
  code: 'FE',
  blades: [0.03, 0.05, 0.08, 0.3, 0.35, 0.4, 0.45, 0.5].map((thickness) => ({
    thickness: mm(thickness),
    tolerance: mm(0.001),
  })),
};
const instruments = [gauge, micrometer, feelers];

const figure = (dimension: string, position: string, value: number): Reading => ({
  dimension,
  position,
  repeat: 1,
  observation: { type: 'value', value: mm(value) },
  instrument: dimension === 'piston' ? 'MI' : 'BG',
  setting: dimension,
});
const boreOf = (value: number) => ['A-across', 'A-along'].map((position) => figure('bore', position, value));
const felt = (dimension: string, low: number, high: number): Reading => ({
  dimension,
  position: '1',
  repeat: 1,
  observation: { type: 'interval', low: mm(low), high: mm(high) },
  instrument: 'FE',
  setting: 'FE',
});

describe('a clearance by feeler is held against bore − piston', () => {
  const sheet = [bore, piston, clearance, interval('clearance-by-feeler')];
  const checked = (low: number, high: number) =>
    benchChecksOf({
      sheet,
      instruments,
      on: '2026-01-01',
      readings: [...boreOf(88.04), figure('piston', '1', 87.98), felt('clearance-by-feeler', low, high)],
    });
  test('0.05 goes and 0.08 does not, at 0.060 between the gauges: they agree', () => {
    expect(checked(0.05, 0.08).map(({ check, name }) => [check.code, check.agrees, name])).toEqual([
      ['clearance-against-sizes', true, 'Piston clearance'],
    ]);
  });
  test('0.03 goes and 0.05 does not: one of the three is wrong', () => {
    expect(checked(0.03, 0.05).map(({ check }) => check.agrees)).toEqual([false]);
  });
});

describe('a ring’s gap grows by π times what the bore has grown', () => {
  const sheet = [bore, interval('ring-gap-top'), interval('lash-in')];
  const before = [...boreOf(88), felt('ring-gap-top', 0.3, 0.35), felt('lash-in', 0.3, 0.35)];
  const sinceWith = (gap: Reading) =>
    benchChecksOf({
      sheet,
      instruments,
      on: '2026-01-01',
      earlier: [{ readings: before, instruments }],
      readings: [...boreOf(88.03), gap, felt('lash-in', 0.3, 0.35)],
    });
  // π × 0.030 = 0.094: from 0.30–0.35 to 0.394–0.444.
  test('0.40 to 0.45 after 0.030 of honing: they agree, and a valve’s lash is no ring gap', () => {
    expect(
      sinceWith(felt('ring-gap-top', 0.4, 0.45)).map(({ check, about }) => [check.code, check.agrees, about]),
    ).toEqual([['gap-change-against-bore', true, ['ring-gap-top', 'bore']]]);
  });
  test('0.30 to 0.35 still: one of them is wrong', () => {
    expect(sinceWith(felt('ring-gap-top', 0.3, 0.35)).map(({ check }) => check.agrees)).toEqual([false]);
  });
});
