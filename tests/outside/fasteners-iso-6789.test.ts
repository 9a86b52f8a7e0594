// Source: ISO 6789-1, hand torque tools of type II: measuring range from 20 to 100 % of the largest value; permissible
// deviation ±6 % up to 10 N·m and ±4 % above; recalibration after 12 months or 5 000 cycles. From memory, not seen.
import { describe, expect, it } from 'vitest';
import { permissibleDeviation, smallestSetting, type TorqueWrench, wrenchFit } from '#domain/fasteners/wrench.ts';
import { micronewtonMetres } from '#domain/units/quantity.ts';

const newtonMetres = (value: number) => micronewtonMetres(Math.round(value * 1e6));
const wrench = (largest: number, more: Partial<TorqueWrench> = {}): TorqueWrench => ({
  code: 'TW',
  largest: newtonMetres(largest),
  calibratedUntil: '2027-01-31',
  pullsSinceCalibration: 0,
  pullsAllowed: 5_000,
  ...more,
});

describe.each([
  { largest: 5, smallest: 1, percent: 6 },
  { largest: 10, smallest: 2, percent: 6 },
  { largest: 25, smallest: 5, percent: 4 },
  { largest: 60, smallest: 12, percent: 4 },
  { largest: 200, smallest: 40, percent: 4 },
])('a wrench of up to $largest N·m', ({ largest, smallest, percent }) => {
  it(`is used from ${smallest} N·m to its largest, within ±${percent} %`, () => {
    expect(smallestSetting(wrench(largest))).toBe(newtonMetres(smallest));
    expect(permissibleDeviation(wrench(largest))).toBe(percent * 10_000);
    const fits = (value: number) => wrenchFit(wrench(largest), newtonMetres(value), '2026-11-25').ok;
    expect([smallest - 0.001, smallest, largest, largest + 0.001].map(fits)).toEqual([false, true, true, false]);
  });
});

it('is out of use the day after its calibration ends, and after 5 000 pulls', () => {
  const usable = (more: Partial<TorqueWrench>, day: string) => wrenchFit(wrench(60, more), newtonMetres(30), day).ok;
  expect(usable({}, '2027-01-31')).toBe(true);
  expect(usable({}, '2027-02-01')).toBe(false);
  expect(usable({ pullsSinceCalibration: 4_999 }, '2026-11-25')).toBe(true);
  expect(usable({ pullsSinceCalibration: 5_000 }, '2026-11-25')).toBe(false);
});
