import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import type { Figure, PrintedDimension, SheetDocument } from '#domain/spec-sheet/document.ts';

const faultsOf = (sheet: SheetDocument) => {
  const checked = checkSheet(sheet);
  return checked.ok ? [] : checked.faults;
};
const pointersOf = (sheet: SheetDocument) => faultsOf(sheet).map(({ pointer }) => pointer);

/** The example with one dimension changed. */
const withDimension = (code: string, change: Partial<PrintedDimension>): SheetDocument => ({
  ...sheetExample,
  dimensions: sheetExample.dimensions.map((dimension) =>
    dimension.code === code ? { ...dimension, ...change } : dimension,
  ),
});
const at = (code: string): string => `/dimensions/${sheetExample.dimensions.findIndex((one) => one.code === code)}`;
const found = (code: string): PrintedDimension => {
  const dimension = sheetExample.dimensions.find((one) => one.code === code);
  if (dimension === undefined) throw new Error(code);
  return dimension;
};
const mm = (value: string): Figure => ({ value, unit: 'mm' });
const limitsOf = (
  standard: readonly [Figure | null, Figure | null],
  service: readonly [Figure | null, Figure | null],
) => [
  {
    sizeClass: 'standard',
    standard: { low: standard[0], high: standard[1] },
    service: { low: service[0], high: service[1] },
  },
];

describe('a spec sheet without fault', () => {
  test('is read into whole base units, inches exactly', () => {
    const checked = checkSheet(sheetExample);
    expect(checked).toMatchObject({ ok: true });
    if (!checked.ok) return;
    const spring = checked.sheet.dimensions.find(({ code }) => code === 'clutch-spring');
    expect(spring?.limits).toEqual([
      {
        sizeClass: 'standard',
        standardLow: 41_148_000,
        standardHigh: null,
        serviceLow: 40_132_000,
        serviceHigh: null,
      },
    ]);
    expect(checked.sheet.places[0]).toMatchObject({ alphaPpb: 23_000, alphaUPpb: 1000 });
    expect(checked.sheet.fasteners[0]?.stages).toEqual([
      { torqueUnm: 20_000_000, angleUdeg: null },
      { torqueUnm: null, angleUdeg: 90_000_000 },
    ]);
  });

  test('may take a bare ratio, a ratio with a scale, and a figure that nobody measures', () => {
    const base = { ...found('piston'), positions: [], limits: [] };
    const dimensions: readonly PrintedDimension[] = [
      ...sheetExample.dimensions,
      { ...base, code: 'new', method: 'stated', stated: mm('120.0') },
      {
        ...base,
        code: 'stretch',
        method: 'ratio',
        kind: 'ratio',
        unit: '%',
        numerator: 'piston',
        denominator: 'new',
      },
      { ...base, code: 'rate', method: 'ratio', numerator: 'piston', denominator: 'new', scale: mm('1') },
    ];
    expect(faultsOf({ ...sheetExample, dimensions })).toEqual([]);
  });
});

describe('a spec sheet is refused with the field named', () => {
  test.each<[string, SheetDocument, string]>([
    [
      'limits that cross',
      withDimension('clearance', { limits: limitsOf([mm('0.07'), mm('0.06')], [null, null]) }),
      'clearance/limits/0/standard/low',
    ],
    [
      'service limits that cross',
      withDimension('clearance', { limits: limitsOf([null, null], [mm('2'), mm('1')]) }),
      'clearance/limits/0/service/low',
    ],
    [
      'a worn limit inside the standard range',
      withDimension('clearance', { limits: limitsOf([mm('0.03'), mm('0.06')], [null, mm('0.05')]) }),
      'clearance/limits/0/service/high',
    ],
    [
      'a lower worn limit inside it',
      withDimension('piston', { limits: limitsOf([mm('87'), mm('88')], [mm('87.5'), null]) }),
      'piston/limits/0/service/low',
    ],
    [
      'a figure that is no number',
      withDimension('clearance', { limits: limitsOf([mm('NaN'), null], [null, null]) }),
      'clearance/limits/0/standard/low/value',
    ],
    [
      'an endless figure',
      withDimension('clearance', { limits: limitsOf([mm('Infinity'), null], [null, null]) }),
      'clearance/limits/0/standard/low/value',
    ],
    [
      'an empty figure',
      withDimension('clearance', { limits: limitsOf([mm(''), null], [null, null]) }),
      'clearance/limits/0/standard/low/value',
    ],
    [
      'a negative length',
      withDimension('piston', { limits: limitsOf([mm('-1'), null], [null, null]) }),
      'piston/limits/0/standard/low/value',
    ],
    [
      'a figure in a unit of another kind',
      withDimension('piston', { limits: limitsOf([{ value: '1', unit: 'kPa' }, null], [null, null]) }),
      'piston/limits/0/standard/low/unit',
    ],
    [
      'a figure in no unit',
      withDimension('piston', { nominal: { value: '1', unit: 'furlong' } }),
      'piston/nominal/unit',
    ],
    ['an unknown unit', withDimension('piston', { unit: 'furlong' }), 'piston/unit'],
    ['a unit of another kind', withDimension('piston', { unit: 'kPa' }), 'piston/unit'],
    [
      'limits without a figure',
      withDimension('piston', { limits: limitsOf([null, null], [null, null]) }),
      'piston/limits/0',
    ],
    [
      'a size class twice',
      withDimension('clearance', { limits: [...found('clearance').limits, ...found('clearance').limits] }),
      'clearance/limits/1/sizeClass',
    ],
    [
      'a difference of a missing dimension',
      withDimension('clearance', { subtrahend: 'pistn' }),
      'clearance/subtrahend',
    ],
    ['a difference that names one only', withDimension('clearance', { minuend: null }), 'clearance/minuend'],
    ['a difference of itself', withDimension('clearance', { minuend: 'clearance' }), 'clearance/minuend'],
    ['a minuend that its method has not', withDimension('piston', { minuend: 'bore' }), 'piston/minuend'],
    [
      'readings of a missing dimension',
      withDimension('piston', { readingsOf: 'bor', positions: [] }),
      'piston/readingsOf',
    ],
    ['a bore without a rule', withDimension('bore', { boreRule: null }), 'bore/boreRule'],
    [
      'a bore at places without level',
      withDimension('bore', { method: 'out-of-round', positions: found('piston').positions }),
      'bore/positions',
    ],
    [
      'a taper of what is no bore',
      withDimension('clutch-spring', { method: 'taper', boreRule: 'extremes', readingsOf: 'piston', positions: [] }),
      'clutch-spring/positions',
    ],
    ['nothing said of where', withDimension('piston', { positions: [] }), 'piston/positions'],
    [
      'positions of what is not read',
      withDimension('clearance', { positions: found('piston').positions }),
      'clearance/positions',
    ],
    [
      'a position twice',
      withDimension('piston', { positions: [...found('piston').positions, ...found('piston').positions] }),
      'piston/positions/1/code',
    ],
    ['a span without a nominal', withDimension('piston', { plausibleSpan: mm('1') }), 'piston/plausibleSpan'],
    ['a place that is not on it', withDimension('piston', { place: 'gearbox' }), 'piston/place'],
    ['a code twice', withDimension('piston', { code: 'bore' }), 'piston/code'],
    ['an empty code', withDimension('piston', { code: ' ' }), 'piston/code'],
    ['an empty name', withDimension('piston', { name: '' }), 'piston/name'],
    [
      'a bare ratio of a length',
      withDimension('clearance', {
        method: 'ratio',
        minuend: null,
        subtrahend: null,
        numerator: 'bore',
        denominator: 'piston',
      }),
      'clearance/kind',
    ],
    [
      'a stated dimension without a figure',
      withDimension('piston', { method: 'stated', positions: [] }),
      'piston/stated',
    ],
  ])('%s', (_what, sheet, where) => {
    const [code = '', ...rest] = where.split('/');
    expect(pointersOf(sheet)).toContain([at(code), ...rest].join('/'));
  });

  test('a circle of differences, at each that is in it', () => {
    const base = { ...found('clearance'), limits: [] };
    const dimensions = [
      ...sheetExample.dimensions,
      { ...base, code: 'one', minuend: 'two' },
      { ...base, code: 'two', minuend: 'three' },
      { ...base, code: 'three', minuend: 'one' },
    ];
    const first = sheetExample.dimensions.length;
    expect(pointersOf({ ...sheetExample, dimensions })).toEqual(
      [0, 1, 2].map((more) => `/dimensions/${first + more}/minuend`),
    );
  });

  test('a valve without its lash, a screw with a shim, a proof and a zone that cannot be', () => {
    const [valve] = sheetExample.valves;
    const [proof] = sheetExample.proofs;
    if (valve === undefined || proof === undefined) throw new Error('the example has both');
    const sheet: SheetDocument = {
      ...sheetExample,
      valves: [
        { ...valve, dimension: 'lash' },
        { ...valve, code: 'right', adjuster: 'screw' },
      ],
      proofs: [{ ...proof, dimension: 'compression' }],
      ringZones: [{ from: { value: '265', unit: 'deg' }, to: { value: '361', unit: 'deg' }, reason: '' }],
      fasteners: sheetExample.fasteners.map((set) => ({ ...set, stages: [{ torque: null, angle: null }] })),
    };
    expect(pointersOf(sheet).toSorted()).toEqual([
      '/fasteners/0/stages/0',
      '/proofs/0/dimension',
      '/ringZones/0/to/value',
      '/valves/0/dimension',
      '/valves/1/screwPitch',
      '/valves/1/shimDiameter',
      '/valves/1/shimSizes',
    ]);
  });
});

describe('laws', () => {
  const thousandths = fc.integer({ min: 0, max: 9_999_999 });
  const inMm = (n: number) => mm((n / 1000).toFixed(3));

  test('a ring goes by the maker, by its pin or by the rule of thumb, and never by two of them', () => {
    const deg = (value: string) => ({ value, unit: 'deg' });
    const rings = (...of: SheetDocument['rings']) => checkSheet({ ...sheetExample, rings: of });
    expect(
      rings(
        { code: 'top', name: '', angle: deg('20') },
        { code: 'pegged', name: '', angle: null, pin: deg('150'), mark: ' A ' },
        { code: 'rail', name: '', angle: null, part: 'rail' },
      ),
    ).toMatchObject({
      ok: true,
      sheet: {
        rings: [
          { angleUdeg: 20_000_000, pinUdeg: null, part: 'compression', faces: 'crown' },
          { angleUdeg: null, pinUdeg: 150_000_000, mark: 'A' },
          { angleUdeg: null, pinUdeg: null, part: 'rail', faces: 'either' },
        ],
      },
    });
    expect(rings({ code: 'top', name: '', angle: deg('20'), pin: deg('20') })).toMatchObject({
      ok: false,
      faults: [{ pointer: '/rings/0/angle' }],
    });
    expect(rings({ code: 'top', name: '', angle: null, pin: deg('360') })).toMatchObject({
      ok: false,
      faults: [{ pointer: '/rings/0/pin/value' }],
    });
    expect(checkSheet({ ...sheetExample, railOffset: deg('181') })).toMatchObject({
      ok: false,
      faults: [{ pointer: '/railOffset/value' }],
    });
  });

  test('a range is taken exactly when its lower end does not lie above its upper one', () => {
    fc.assert(
      fc.property(thousandths, thousandths, (low, high) => {
        const sheet = withDimension('piston', { limits: limitsOf([inMm(low), inMm(high)], [null, null]) });
        expect(checkSheet(sheet).ok).toBe(low <= high);
      }),
    );
  });

  test('the unit in which a limit is printed changes neither its value nor whether it is taken', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 99_999 }), (low, high) => {
        const inches = (n: number): Figure => ({ value: (n / 10_000).toFixed(4), unit: 'in' });
        const micrometres = (n: number): Figure => ({ value: ((n * 254) / 100).toFixed(2), unit: 'um' });
        const one = checkSheet(
          withDimension('piston', { limits: limitsOf([inches(low), inches(high)], [null, null]) }),
        );
        const other = checkSheet(
          withDimension('piston', { limits: limitsOf([micrometres(low), micrometres(high)], [null, null]) }),
        );
        expect(one.ok).toBe(other.ok);
        if (one.ok && other.ok)
          expect(one.sheet.dimensions.map(({ limits }) => limits)).toEqual(
            other.sheet.dimensions.map(({ limits }) => limits),
          );
      }),
    );
  });

  test('differences that each take an earlier dimension are taken; any way back is refused', () => {
    const size = 6;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { minLength: size, maxLength: size }),
        (pairs) => {
          const base = { ...found('clearance'), limits: [] };
          const names = pairs.map((_, index) => `d${index}`);
          const dimensions = pairs.map(([a, b], index) => ({
            ...base,
            code: names[index] ?? '',
            minuend: names[a] ?? '',
            subtrahend: b === a ? 'bore' : (names[b] ?? ''),
          }));
          const reaches = (from: number, to: number, seen: ReadonlySet<number> = new Set()): boolean =>
            (pairs[from] ?? []).some(
              (next) => next === to || (!seen.has(next) && reaches(next, to, new Set([...seen, next]))),
            );
          const circle = pairs.some((_, index) => reaches(index, index));
          expect(checkSheet({ ...sheetExample, dimensions: [...sheetExample.dimensions, ...dimensions] }).ok).toBe(
            !circle,
          );
        },
      ),
    );
  });

  test('whatever text a figure is, the sheet is taken or refused at that figure, never broken', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (value, unit) => {
        const pointers = pointersOf(withDimension('piston', { nominal: { value, unit } }));
        expect(pointers.every((pointer) => pointer.startsWith(`${at('piston')}/nominal/`))).toBe(true);
      }),
    );
  });
});
