import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FastenerPosition } from '#domain/fasteners/fastener-set.ts';
import { generatedOrder, looseningOrder, tighteningOrder } from '#domain/fasteners/order.ts';
import { nanometres } from '#domain/units/quantity.ts';

const at = (number: number, x: number, y: number): FastenerPosition => ({
  number,
  x: nanometres(Math.round(x * 1e6)),
  y: nanometres(Math.round(y * 1e6)),
});

const circle = (count: number, radius: number, first = 1): readonly FastenerPosition[] =>
  Array.from({ length: count }, (_, index) => {
    const angle = (2 * Math.PI * index) / count;
    return at(first + index, radius * Math.cos(angle), radius * Math.sin(angle));
  });

describe('the generated order', () => {
  it('goes crosswise over four studs in a square', () => {
    const studs = [at(1, -40, 40), at(2, 40, 40), at(3, 40, -40), at(4, -40, -40)];
    expect(generatedOrder(studs)).toEqual([1, 3, 2, 4]);
  });

  it('does the four inner head bolts before the outer ones', () => {
    const inner = [at(1, -40, 40), at(2, 40, 40), at(3, 40, -40), at(4, -40, -40)];
    const outer = [at(5, -90, 0), at(6, 90, 0)];
    expect(generatedOrder([...outer, ...inner])).toEqual([1, 3, 2, 4, 6, 5]);
  });

  it.each([
    [4, [1, 3, 2, 4]],
    [5, [1, 3, 5, 2, 4]],
    [6, [1, 4, 2, 5, 3, 6]],
    [7, [1, 4, 6, 2, 5, 3, 7]],
    [10, [1, 6, 3, 8, 4, 9, 2, 7, 5, 10]],
  ])('is a star or a cross over %i bolts on a circle', (count, order) => {
    expect(generatedOrder(circle(count, 60))).toEqual(order);
  });

  const rows = (columns: number, apart: number): readonly FastenerPosition[] =>
    [40, -40].flatMap((y, row) =>
      Array.from({ length: columns }, (_, column) =>
        at(row * columns + column + 1, (column - (columns - 1) / 2) * apart, y),
      ),
    );

  it('works outwards from the middle of a head with two rows of four, of five', () => {
    expect(generatedOrder(rows(4, 80))).toEqual([2, 7, 3, 6, 4, 5, 8, 1]);
    expect(generatedOrder(rows(5, 80))).toEqual([3, 8, 2, 9, 7, 4, 6, 5, 1, 10]);
  });

  it('goes back and forth outwards over a single row', () => {
    expect(generatedOrder([-60, -20, 20, 60].map((x, index) => at(index + 1, x, 0)))).toEqual([2, 3, 1, 4]);
  });

  it('crosses a cover whose screws stand on no circle inside out, and begins with one in the middle', () => {
    const cover = [at(1, -62, 38), at(2, 5, 55), at(3, 60, 30), at(4, 58, -35), at(5, -4, -57), at(6, -60, -33)];
    expect(generatedOrder(cover)).toEqual([2, 5, 1, 4, 6, 3]);
    expect(generatedOrder([...circle(4, 50), at(5, 0, 0)])).toEqual([5, 1, 3, 2, 4]);
  });

  it('starts in the middle of two rows of cap bolts', () => {
    const caps = [at(1, -60, 10), at(2, 0, 10), at(3, 60, 10), at(4, -60, -10), at(5, 0, -10), at(6, 60, -10)];
    expect(generatedOrder(caps)).toEqual([2, 5, 1, 6, 4, 3]);
  });

  it('takes positions measured by hand, half a millimetre off, for the same ring', () => {
    const studs = [at(1, -40, 40), at(2, 40.4, 40), at(3, 40, -40.3), at(4, -39.7, -40)];
    expect(generatedOrder(studs)).toEqual([1, 3, 2, 4]);
  });

  it('never pulls two neighbours of a circle in a row, from five bolts on', () => {
    for (let count = 5; count <= 24; count += 1) {
      const order = generatedOrder(circle(count, 60));
      for (const [index, number] of order.entries()) {
        const last = order[index - 1];
        if (last === undefined) continue;
        const apart = Math.abs(number - last);
        expect(Math.min(apart, count - apart), `${count} bolts: ${order.join(' ')}`).toBeGreaterThan(1);
      }
    }
  });

  it('is a permutation of the positions, and the same whatever the order they are listed in', () => {
    const positions = fc.uniqueArray(fc.tuple(fc.integer({ min: -90, max: 90 }), fc.integer({ min: -90, max: 90 })), {
      selector: ([x, y]) => `${x} ${y}`,
      maxLength: 14,
    });
    fc.assert(
      fc.property(positions, (points) => {
        const listed = points.map(([x, y], index) => at(index + 1, x, y));
        const order = generatedOrder(listed);
        expect(order.toSorted((a, b) => a - b)).toEqual(listed.map(({ number }) => number));
        expect(generatedOrder(listed.toReversed())).toEqual(order);
      }),
    );
  });

  it('of no positions is empty', () => {
    expect(generatedOrder([])).toEqual([]);
  });
});

describe('tightening and loosening', () => {
  it('follows the maker’s numbers where the sheet gives them', () => {
    const positions = [at(3, 0, 0), at(1, 10, 0), at(2, -10, 0)];
    expect(tighteningOrder({ positions, orderIsMakers: true })).toEqual([1, 2, 3]);
    expect(tighteningOrder({ positions, orderIsMakers: false })[0]).toBe(3);
  });

  it('loosens in reverse, from the outside in', () => {
    const positions = [...circle(4, 40), ...circle(4, 80, 5)];
    const set = { positions, orderIsMakers: false };
    expect(looseningOrder(set)).toEqual(tighteningOrder(set).toReversed());
    expect(
      looseningOrder(set)
        .slice(0, 4)
        .every((number) => number > 4),
    ).toBe(true);
  });
});
