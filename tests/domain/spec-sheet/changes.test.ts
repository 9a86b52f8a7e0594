import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import { changesBetween } from '#domain/spec-sheet/changes.ts';
import type { PrintedDimension, SheetDocument } from '#domain/spec-sheet/document.ts';

const found = (code: string): PrintedDimension => {
  const dimension = sheetExample.dimensions.find((one) => one.code === code);
  if (dimension === undefined) throw new Error(code);
  return dimension;
};
const spring = found('clutch-spring');
const withSpring = (change: Partial<PrintedDimension>): SheetDocument => ({
  ...sheetExample,
  dimensions: sheetExample.dimensions.map((one) => (one === spring ? { ...spring, ...change } : one)),
});
const lowest = (value: string, unit: string) => ({
  limits: [
    {
      ...spring.limits[0],
      sizeClass: 'standard',
      standard: { low: null, high: null },
      service: { low: { value, unit }, high: null },
    },
  ],
});

describe('what two revisions say differently', () => {
  test('is a limit from one figure to another, in printed units', () => {
    expect(changesBetween(withSpring(lowest('1.580', 'in')), withSpring(lowest('1.575', 'in')))).toEqual([
      {
        kind: 'changed',
        part: 'dimension',
        code: 'clutch-spring',
        name: 'Clutch spring, free length',
        sizeClass: 'standard',
        field: 'service low',
        from: '1.580 in',
        to: '1.575 in',
      },
    ]);
  });

  test('is told apart from the same value printed otherwise', () => {
    expect(changesBetween(withSpring(lowest('1.580', 'in')), withSpring(lowest('40.132', 'mm')))).toMatchObject([
      { kind: 'printed otherwise', from: '1.580 in', to: '40.132 mm' },
    ]);
  });

  test('is a whole dimension with its figures and positions where only one has it', () => {
    const without = { ...sheetExample, dimensions: sheetExample.dimensions.filter((one) => one !== spring) };
    const added = changesBetween(without, sheetExample);
    expect(new Set(added.map(({ kind }) => kind))).toEqual(new Set(['added']));
    expect(added[0]).toMatchObject({ code: 'clutch-spring', field: '', to: 'Clutch spring, free length' });
    expect(added.map(({ field }) => field)).toEqual(
      expect.arrayContaining(['standard low', 'service low', 'service low, source', 'position 1', 'page']),
    );
    expect(changesBetween(sheetExample, without).every(({ kind }) => kind === 'removed')).toBe(true);
  });

  test('holds torques, places, valves, rings and proofs too', () => {
    const other: SheetDocument = {
      ...sheetExample,
      note: 'second printing',
      places: sheetExample.places.map((place) => ({ ...place, plated: false })),
      fasteners: sheetExample.fasteners.map((set) => ({
        ...set,
        stages: [{ torque: { value: '22', unit: 'N.m' }, angle: null }],
      })),
      rings: [],
      proofs: sheetExample.proofs.map((proof) => ({ ...proof, words: 'cold' })),
    };
    expect(changesBetween(sheetExample, other).map(({ part, field, from, to }) => [part, field, from, to])).toEqual([
      ['sheet', 'note', 'Clutch spring added', 'second printing'],
      ['place', 'plated', 'yes', 'no'],
      ['fasteners', 'stages', '20 N·m, 90°', '22 N·m'],
      ['proof', 'words', 'At top dead centre, warm', 'cold'],
      ['ring', '', 'Top ring', null],
      ['ring', 'angle', '120°', null],
      ['ring', 'part', 'compression', null],
      ['ring', 'mark', 'A', null],
      ['ring', 'faces', 'crown', null],
      ['ring', '', 'Oil rail', null],
      ['ring', 'part', 'rail', null],
      ['ring', 'faces', 'either', null],
    ]);
  });
});

describe('laws', () => {
  const some = fc.subarray([...sheetExample.dimensions]).chain((dimensions) =>
    fc.record({ note: fc.string(), figuresInvented: fc.boolean(), value: fc.nat(9999) }).map(({ value, ...rest }) => ({
      ...sheetExample,
      ...rest,
      dimensions: dimensions.map((one) => ({ ...one, nominal: { value: `${value}`, unit: one.unit } })),
    })),
  );

  test('a sheet differs in nothing from itself', () => {
    fc.assert(
      fc.property(some, (sheet) => {
        expect(changesBetween(sheet, structuredClone(sheet))).toEqual([]);
      }),
    );
  });

  test('seen the other way round, what was added was removed, and from is to', () => {
    fc.assert(
      fc.property(some, some, (one, other) => {
        const there = changesBetween(one, other).map(({ part, code, field, from, to }) => [
          part,
          code,
          field,
          from,
          to,
        ]);
        const back = changesBetween(other, one).map(({ part, code, field, from, to }) => [part, code, field, to, from]);
        const sorted = (of: readonly unknown[]) => of.map((each) => JSON.stringify(each)).toSorted();
        expect(sorted(there)).toEqual(sorted(back));
      }),
    );
  });
});
