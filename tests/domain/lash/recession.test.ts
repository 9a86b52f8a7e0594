import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lashAndShim, recession } from '#domain/lash/recession.ts';
import { nanometres } from '#domain/units/quantity.ts';

const um = (value: number) => nanometres(Math.round(value * 1_000));
const range = { low: um(100), high: um(150) };
const at = (hours: number, low: number, shim: number) => ({
  hours,
  lash: { low: um(low), high: um(low + 10) },
  shim: um(shim),
});

test('a valve that sinks by 10 µm in 100 h is seen through a change of shim, and when its lash will be too small', () => {
  // 0.135 middle over 2.350; 0.115 over 2.350 after 200 h; shimmed to 2.330 (0.135); 0.125 after 300 h.
  const found = recession([at(0, 130, 2350), at(200, 110, 2350), at(200, 130, 2330), at(300, 120, 2330)], range);
  expect(found.ok).toBe(true);
  if (!found.ok) return;
  expect(found.line.slope).toBeCloseTo(-100, 6);
  // 0.125 less 0.100 at 10 µm in 100 h
  expect(found.hoursLeft.estimate).toBeCloseTo(250, 6);
});

test('shimming alone changes nothing of lash and shim together', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 300 }),
      fc.integer({ min: 1200, max: 3500 }),
      fc.integer({ min: -200, max: 200 }),
      (low, shim, by) => {
        const before = { lash: { low: um(low), high: um(low + 10) }, shim: um(shim) };
        const after = { lash: { low: um(low - by), high: um(low + 10 - by) }, shim: um(shim + by) };
        expect(lashAndShim(after)).toBe(lashAndShim(before));
      },
    ),
  );
});

test('two points say nothing, and a valve whose lash grows is not coming to the low end', () => {
  expect(recession([at(0, 130, 2350), at(100, 120, 2350)], range)).toEqual({
    ok: false,
    reason: 'fewer-than-three-points',
  });
  const growing = recession([at(0, 110, 2350), at(100, 120, 2350), at(200, 130, 2350)], range);
  expect(growing.ok && growing.hoursLeft.estimate).toBe(null);
});

test('already too small: no hours are left', () => {
  const found = recession([at(0, 130, 2350), at(100, 100, 2350), at(200, 70, 2350)], range);
  expect(found.ok && found.hoursLeft.estimate).toBe(0);
});
