import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitAxis } from '../../../web/src/drawings/limit-axis.ts';
import { LimitStrip, type LimitStripProps } from '../../../web/src/drawings/limit-strip.tsx';
import { rowsOf } from '../../../web/src/drawings/strip-lettering.tsx';
import { accessibleName, drawn, elementsWith, elementWith, startOf, unsound } from './markup.ts';

const bore = { label: 'Bore, size', standard: [88, 88.012], upper: 88.05 } as const;
const reading = (value: number, guard = 0.003) => ({ kind: 'value', value, guard }) as const;
const blade = (goes: number | null, doesNot: number | null) => ({ kind: 'interval', goes, doesNot }) as const;
const strip = (props: Partial<LimitStripProps>) => drawn(<LimitStrip {...bore} verdict="undecided" {...props} />);
const x = (markup: string, mark: string) => startOf(elementWith(markup, 'data-mark', mark));

describe('the limit strip', () => {
  it('a reading exactly on the limit stands on the limit’s line', () => {
    const markup = strip({ reading: reading(88.05) });
    expect(x(markup, 'upper')).not.toBeNaN();
    expect(x(markup, 'reading')).toBe(x(markup, 'upper'));
    expect(x(strip({ lower: 87.99, reading: reading(87.99) }), 'reading')).toBe(
      x(strip({ lower: 87.99, reading: reading(87.99) }), 'lower'),
    );
  });

  it('a larger reading stands farther right, a limit passed lies left of it', () => {
    const [inside, past] = [strip({ reading: reading(88.03) }), strip({ reading: reading(88.06) })];
    expect(x(inside, 'reading')).toBeLessThan(x(inside, 'upper'));
    expect(x(past, 'reading')).toBeGreaterThan(x(past, 'upper'));
  });

  it('a dimension limited on one side has no cross-hatch on the other', () => {
    const bands = (markup: string) => [...markup.matchAll(/data-band="([^"]+)"/g)].map((match) => match[1]);
    expect(bands(strip({}))).toEqual(['past-upper', 'service-upper', 'standard']);
    expect(bands(strip({ upper: null, lower: 87.98 }))).toEqual(['past-lower', 'service-lower', 'standard']);
    // A gap below standard butts: there the standard's bound is the limit, and nothing lies between.
    expect(bands(strip({ standard: [0.3, 0.4], lower: 0.3, upper: 0.6 }))).toEqual([
      'past-lower',
      'past-upper',
      'service-upper',
      'standard',
    ]);
  });

  it('the accessible name gives dimension, reading, verdict and limits', () => {
    expect(accessibleName(strip({ reading: reading(88.048), verdict: 'undecided', unit: 'mm' }))).toBe(
      'Bore, size, 88.048 ± 0.003 mm, undecided, standard 88.000 to 88.012, limit at most 88.050',
    );
    expect(accessibleName(strip({ reading: reading(88.061), verdict: 'past the limit' }))).toContain('past the limit');
    expect(accessibleName(strip({ verdict: 'not measured' }))).toContain('not measured');
  });

  it('not measured, it draws no reading', () => {
    expect(elementWith(strip({ verdict: 'not measured' }), 'data-mark', 'reading')).toBeUndefined();
    expect(elementWith(strip({ reading: reading(Number.NaN) }), 'data-mark', 'reading')).toBeUndefined();
  });

  it('a feeler interval is a bar between what goes and what doesn’t; without a blade that goes it starts at the axis', () => {
    const gap = { standard: [0.3, 0.4], lower: 0.25, upper: 0.6, decimals: 2 } as const;
    const bar = (goes: number | null, doesNot: number | null) => {
      const element = elementWith(strip({ ...gap, reading: blade(goes, doesNot) }), 'data-mark', 'reading') ?? '';
      return { from: Number(/\bx="([^"]+)"/.exec(element)?.[1]), length: Number(/width="([^"]+)"/.exec(element)?.[1]) };
    };
    expect(bar(0.38, 0.42).length).toBeGreaterThan(bar(0.38, 0.4).length);
    expect(bar(null, 0.3).from).toBe(8);
    expect(bar(0.5, null).from + bar(0.5, null).length).toBeCloseTo(452, 5);
    expect(accessibleName(strip({ ...gap, reading: blade(0.38, 0.42) }))).toContain('0.38 goes, 0.42 does not');
  });

  it('earlier readings are ticks, one each, those beyond the axis left out', () => {
    const ticks = (earlier: readonly number[]) =>
      (/<g data-layer="earlier">(.*?)<\/g>/.exec(strip({ earlier }))?.[1]?.match(/<path/g) ?? []).length;
    expect(ticks([88.006, 88.017, 88.027])).toBe(3);
    expect(ticks([88.006, 90])).toBe(1);
  });

  it('the compact strip letters nothing', () => {
    expect(strip({ reading: reading(88.03), compact: true })).not.toContain('<text');
    expect(elementsWith(strip({ reading: reading(88.03) }), 'text-anchor', 'middle')).toHaveLength(4);
  });
});

describe('the ends of a strip’s axis', () => {
  it('lie a quarter of the span of all limits beyond them', () => {
    const axis = limitAxis(bore, reading(88.03));
    expect(axis.low).toBeCloseTo(88 - 0.0125, 9);
    expect(axis.high).toBeCloseTo(88.05 + 0.0125, 9);
  });

  it('give way for a wild reading, up to one and a half spans', () => {
    const axis = limitAxis(bore, reading(88.11));
    expect(axis.high).toBeGreaterThan(88.113);
    expect(axis.offScale).toBeNull();
    expect(limitAxis(bore, reading(89)).offScale).toBe('high');
    expect(limitAxis(bore, reading(3.4665)).offScale).toBe('low');
    expect(limitAxis(bore, reading(89)).high).toBeCloseTo(88.0625, 9);
  });

  it('never fall below nought for what can’t be negative', () => {
    expect(limitAxis({ standard: [0, 0.01], upper: 0.03 }, reading(0.017, 0.003)).low).toBe(0);
    expect(limitAxis({ upper: 0.8 }, reading(0.42, 0.02)).low).toBe(0);
  });

  it('always hold every limit, and the reading unless it is said to be off the scale', () => {
    const size = fc.double({ min: -1000, max: 1000, noNaN: true });
    const maybe = fc.option(size);
    fc.assert(
      fc.property(maybe, maybe, size, fc.double({ min: 0, max: 1, noNaN: true }), (lower, upper, value, guard) => {
        const axis = limitAxis({ lower, upper }, reading(value, guard));
        expect(axis.low).toBeLessThan(axis.high);
        for (const limit of [lower, upper]) {
          if (limit === null) continue;
          expect(limit).toBeGreaterThanOrEqual(axis.low);
          expect(limit).toBeLessThanOrEqual(axis.high);
        }
        if (axis.offScale !== null) return;
        expect(value).toBeGreaterThanOrEqual(axis.low);
        expect(value).toBeLessThanOrEqual(axis.high);
      }),
    );
  });

  it('whatever comes in, the markup holds numbers only', () => {
    const any = fc.option(fc.double({ min: -1e6, max: 1e6 }));
    fc.assert(
      fc.property(
        fc.record({ lower: any, upper: any, standard: fc.tuple(any, any), earlier: fc.array(fc.double()) }),
        fc.oneof(
          fc.record({ kind: fc.constant('value' as const), value: fc.double(), guard: fc.double() }),
          fc.record({ kind: fc.constant('interval' as const), goes: any, doesNot: any }),
        ),
        (facts, read) => {
          const markup = drawn(<LimitStrip label="x" verdict="undecided" {...facts} reading={read} compact />);
          expect(unsound(markup)).toEqual([]);
        },
      ),
      { numRuns: 400 },
    );
  });
});

describe('the lettering under a strip', () => {
  it('figures that would touch stand in two rows', () => {
    const rows = rowsOf(
      [
        { x: 100, text: '87.955', limit: false },
        { x: 120, text: '87.965', limit: false },
        { x: 300, text: '88.050', limit: true },
      ],
      400,
    );
    expect(rows.map((label) => label.row)).toEqual([0, 1, 0]);
  });
});
