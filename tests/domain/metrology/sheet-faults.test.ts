import { describe, expect, it } from 'vitest';
import type { DimensionDefinition, Limits, Method } from '#domain/metrology/dimension.ts';
import { sheetFaults } from '#domain/metrology/sheet-faults.ts';
import { baseQuantity } from '#domain/units/quantity.ts';
import { bore, borePositions, dimension, mm, upTo } from './measuring-bench.ts';

const none: Limits = { standard: {}, service: {} };
const derived = (code: string, method: Method, parts: Partial<DimensionDefinition> = {}) =>
  dimension(code, method, { positions: [], limits: upTo(undefined, 1), ...parts });
const piston = dimension('piston', { type: 'single' }, { limits: none });
const clearance = derived('clearance', { type: 'difference', minuend: 'bore', subtrahend: 'piston' });
const taper = derived('taper', { type: 'taper', rule: 'per-level' }, { readingsOf: 'bore' });
const good = [bore, piston, clearance, taper];

const faultsOf = (...more: readonly DimensionDefinition[]) =>
  sheetFaults([...good, ...more]).map(({ dimension: code, field, reason }) => [code, field, reason]);

describe('a spec sheet that can be used', () => {
  it('has no faults', () => {
    expect(sheetFaults(good)).toEqual([]);
    const stretch = [
      derived('new', { type: 'stated', value: mm(127) }),
      derived('longer', { type: 'difference', minuend: 'piston', subtrahend: 'new' }),
      derived('stretch', { type: 'ratio', numerator: 'longer', denominator: 'new' }, { kind: 'ratio' }),
    ];
    expect(faultsOf(...stretch)).toEqual([]);
  });
});

describe('what a sheet is refused for, with the field named', () => {
  const felt = dimension('play', { type: 'felt' }, { limits: none });
  const torque = dimension('torque', { type: 'single' }, { kind: 'torque', limits: none });
  it.each<readonly [string, readonly DimensionDefinition[], readonly (readonly string[])[]]>([
    ['a code twice', [piston], [['piston', 'code', 'code-twice']]],
    [
      'a dimension that is not there',
      [derived('x', { type: 'difference', minuend: 'bore', subtrahend: 'gone' })],
      [['x', 'subtrahend', 'unknown-dimension']],
    ],
    [
      'readings of one that is not there',
      [derived('x', { type: 'maximum' }, { readingsOf: 'gone' })],
      [['x', 'readingsOf', 'unknown-dimension']],
    ],
    [
      'readings of one that has none',
      [derived('x', { type: 'maximum' }, { readingsOf: 'clearance' })],
      [
        ['x', 'readingsOf', 'not-to-be-worked-from'],
        ['x', 'positions', 'positions-do-not-fit'],
      ],
    ],
    [
      'a difference from what is felt',
      [felt, derived('x', { type: 'difference', minuend: 'play', subtrahend: 'piston' })],
      [['x', 'minuend', 'not-to-be-worked-from']],
    ],
    [
      'a circle',
      [
        derived('x', { type: 'difference', minuend: 'y', subtrahend: 'piston' }),
        derived('y', { type: 'difference', minuend: 'x', subtrahend: 'piston' }),
      ],
      [
        ['x', 'minuend', 'goes-in-circles'],
        ['y', 'minuend', 'goes-in-circles'],
      ],
    ],
    [
      'itself',
      [derived('x', { type: 'difference', minuend: 'x', subtrahend: 'piston' })],
      [['x', 'minuend', 'goes-in-circles']],
    ],
    [
      'mixed kinds',
      [torque, derived('x', { type: 'difference', minuend: 'torque', subtrahend: 'piston' })],
      [['x', 'minuend', 'mixed-kinds']],
    ],
    [
      'a ratio that is called a length',
      [derived('x', { type: 'ratio', numerator: 'bore', denominator: 'piston' })],
      [['x', 'kind', 'mixed-kinds']],
    ],
    [
      'a ratio across kinds without a scale',
      [torque, derived('x', { type: 'ratio', numerator: 'torque', denominator: 'piston' }, { kind: 'ratio' })],
      [['x', 'denominator', 'mixed-kinds']],
    ],
    [
      'a scale of nothing',
      [derived('x', { type: 'ratio', numerator: 'bore', denominator: 'piston', scale: mm(0) })],
      [['x', 'scale', 'not-a-number']],
    ],
    ['no positions', [derived('x', { type: 'single' })], [['x', 'positions', 'positions-do-not-fit']]],
    [
      'a position twice',
      [dimension('x', { type: 'maximum' }, { positions: [{ code: 'a' }, { code: 'a' }], limits: none })],
      [['x', 'positions', 'positions-do-not-fit']],
    ],
    [
      'a taper at one height',
      [
        dimension(
          'x',
          { type: 'taper', rule: 'extremes' },
          { positions: borePositions.filter(({ level }) => level === 1), limits: none },
        ),
      ],
      [['x', 'positions', 'positions-do-not-fit']],
    ],
    [
      'limits that cross',
      [
        derived(
          'x',
          { type: 'difference', minuend: 'bore', subtrahend: 'piston' },
          { limits: { standard: { high: mm(2) }, service: { high: mm(1) } } },
        ),
      ],
      [['x', 'limits', 'limits-cross']],
    ],
    [
      'a limit that is no number',
      [
        {
          ...clearance,
          code: 'x',
          limits: { standard: {}, service: { high: Number.NaN as unknown as ReturnType<typeof mm> } },
        },
      ],
      [['x', 'limits', 'not-a-number']],
    ],
    ['a rule that is none', [{ ...clearance, code: 'x', rule: 'guard-factor-99' }], [['x', 'rule', 'unknown-rule']]],
    [
      'a span of nothing',
      [{ ...piston, code: 'x', plausible: { nominal: mm(88), span: mm(0) } }],
      [['x', 'plausible', 'not-a-number']],
    ],
    [
      'an expansion like no metal’s',
      [{ ...piston, code: 'x', material: { alphaPerKelvin: 23, alphaUncertaintyPerKelvin: 0 } }],
      [['x', 'material', 'not-a-number']],
    ],
  ])('%s', (_, more, faults) => {
    expect(faultsOf(...more)).toEqual(faults);
  });

  it('the limits of another size class that cross', () => {
    const bored = new Map([['bore', [{ standard: { low: mm(96.3), high: mm(96.25) }, service: {} }]]]);
    expect(sheetFaults(good, bored)).toMatchObject([{ dimension: 'bore', field: 'limits', reason: 'limits-cross' }]);
  });

  it('a sheet whose dimensions lean on each other in many ways is looked through at once', () => {
    const many = Array.from({ length: 60 }, (_, index) =>
      derived(`d${index}`, { type: 'difference', minuend: `d${index + 1}`, subtrahend: `d${index + 1}` }),
    );
    const faults = sheetFaults([...many, { ...piston, code: 'd60' }]);
    expect(new Set(faults.map(({ reason }) => reason))).toEqual(new Set(['nested-too-deep']));
    expect(faults).toHaveLength(56);
  });

  it('a stated figure of its own kind', () => {
    const stated = derived('x', { type: 'stated', value: baseQuantity('ratio', 5) }, { kind: 'ratio' });
    expect(faultsOf(stated)).toEqual([]);
  });
});
