import fc from 'fast-check';
import type { ShimmedHead, SizedValve, StoredShims } from '#domain/lash/heads.ts';
import { nanometres } from '#domain/units/quantity.ts';

/** Heads and what is in store for them. */
export interface HeadsCase {
  readonly heads: readonly ShimmedHead[];
  readonly stored: readonly StoredShims[];
}

const micro = (value: number) => nanometres(value * 1_000);
/** In steps of 0.01 mm, so that equal thicknesses and equal sums come up often. */
const hundredths = (min: number, max: number) => fc.integer({ min, max }).map((value) => micro(value * 10));
const thickness = (min: number, max: number) =>
  fc.record({ value: hundredths(min, max), uncertainty: fc.constantFrom(0, 2, 5).map(micro) });
const makersSizes = fc.constant({ low: micro(1_200), high: micro(3_500) });
const diameter = fc.constantFrom(micro(7_480), micro(7_480), micro(7_480), micro(9_480));

const valve = (code: string): fc.Arbitrary<SizedValve> =>
  fc.record({
    code: fc.constant(code),
    fitted: thickness(225, 240).map((measured) => ({ measured, printed: null })),
    lash: fc
      .record({ low: hundredths(2, 24), step: fc.constantFrom(0, 10, 20, 50, -1) })
      .map(({ low, step }) => ({ low, high: step < 0 ? null : nanometres(low + step * 1_000) })),
    wanted: fc.constantFrom(micro(120), micro(130)),
    range: fc.constantFrom(
      { low: micro(100), high: micro(150) },
      { low: micro(100), high: micro(200) },
      { low: micro(80), high: micro(140) },
    ),
    shimDiameter: diameter,
    makersSizes,
  });

const head = (name: string, most: number, of: (code: string) => fc.Arbitrary<SizedValve>): fc.Arbitrary<ShimmedHead> =>
  fc.integer({ min: 1, max: most }).chain((count) =>
    fc.record({
      name: fc.constant(name),
      valves: fc.tuple(...Array.from({ length: count }, (_, index) => of(`V${index + 1}`))),
    }),
  );

const exactly = (value: number) => ({ value: micro(value), uncertainty: micro(0) });

const offered = (alike: boolean) =>
  fc.record({
    buy: alike ? fc.constant(false) : fc.boolean(),
    received: fc.constantFrom('2025-01-01', '2026-01-01'),
    thickness: alike ? fc.constantFrom(2_290, 2_310, 2_330).map(exactly) : thickness(222, 245),
    shimDiameter: alike ? fc.constant(micro(7_480)) : diameter,
    count: fc.integer({ min: alike ? 1 : 0, max: alike ? 1 : 3 }),
  });

/** Valves that differ by little, so that one sum of distances comes about in many ways. */
const alikeValve = (code: string): fc.Arbitrary<SizedValve> =>
  fc.record({
    code: fc.constant(code),
    fitted: fc.constant({ measured: exactly(2_350), printed: null }),
    lash: fc.constantFrom(50, 70, 90, 110).map((low) => ({ low: micro(low), high: micro(low) })),
    wanted: fc.constant(micro(130)),
    range: fc.constant({ low: micro(110), high: micro(150) }),
    shimDiameter: fc.constant(micro(7_480)),
    makersSizes,
  });

/** Heads up to so many valves each, with up to so many lots and sizes; `alike`: with many ways to come to the same. */
export const headsCase = (most: {
  readonly heads: number;
  readonly valves: number;
  readonly stored: number;
  readonly alike?: boolean;
}): fc.Arbitrary<HeadsCase> =>
  fc.record({
    heads: fc
      .integer({ min: 1, max: most.heads })
      .chain((count) =>
        fc.tuple(
          ...Array.from({ length: count }, (_, index) =>
            head(`H${index + 1}`, most.valves, most.alike === true ? alikeValve : valve),
          ),
        ),
      ),
    stored: fc.array(offered(most.alike === true), { maxLength: most.stored }).map((offers) =>
      offers.map(({ buy, received, ...shim }, index): StoredShims => {
        const id = `s${String(index).padStart(3, '0')}`;
        return {
          ...shim,
          source: buy ? { kind: 'buy', partId: id } : { kind: 'bin', lotId: id, receivedAt: received },
        };
      }),
    ),
  });
