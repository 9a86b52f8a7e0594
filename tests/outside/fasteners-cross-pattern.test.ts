// Source: the legacy cross pattern of ASME PCC-1 (pressure boundary bolted flange joints), its table of tightening
// sequences for 4, 8, 12 and 16 bolts numbered around the flange; from memory, not seen.
import { describe, expect, it } from 'vitest';
import { generatedOrder } from '#domain/fasteners/order.ts';
import { nanometres } from '#domain/units/quantity.ts';

const table: readonly (readonly number[])[] = [
  [1, 3, 2, 4],
  [1, 5, 3, 7, 2, 6, 4, 8],
  [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12],
  [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16],
];

const flange = (count: number, { turnedBy, clockwise }: { turnedBy: number; clockwise: boolean }) =>
  Array.from({ length: count }, (_, index) => {
    const angle = (turnedBy * Math.PI) / 180 + ((clockwise ? -2 : 2) * Math.PI * index) / count;
    return {
      number: index + 1,
      x: nanometres(Math.round(90e6 * Math.cos(angle))),
      y: nanometres(Math.round(90e6 * Math.sin(angle))),
    };
  });

describe.each(table.map((sequence) => ({ count: sequence.length, sequence })))(
  '$count bolts',
  ({ count, sequence }) => {
    it.each([
      { turnedBy: 0, clockwise: true },
      { turnedBy: 11, clockwise: false },
      { turnedBy: 90, clockwise: true },
    ])('come in the cross pattern, first bolt at $turnedBy°', (at) => {
      expect(generatedOrder(flange(count, at))).toEqual(sequence);
    });
  },
);
