import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AboveThePiston, type FaceCut, faceCutForeseen } from '#domain/build/face-cut.ts';
import { cubicMillimetres, nanometres } from '#domain/units/quantity.ts';

const mm = (value: number) => nanometres(Math.round(value * 1e6));
const above: AboveThePiston = {
  bore: mm(88),
  stroke: mm(58.5),
  chamber: cubicMillimetres(25_400),
  opening: mm(88),
  gasket: { bore: mm(88), thickness: mm(0.6) },
  deck: mm(0.1),
  dish: cubicMillimetres(0),
  dome: cubicMillimetres(0),
};
const cut = (parts: Partial<FaceCut>): FaceCut => ({ face: 'head', remove: mm(0), baseGasket: mm(0), ...parts });
const foreseen = (of: AboveThePiston, parts: Partial<FaceCut>) => {
  const found = faceCutForeseen(of, cut(parts));
  if (!found.ok) throw new Error(found.reason);
  return found;
};

describe('a face that is cut', () => {
  it('88 × 58.5 with 29.66 cm³ above: 13.00, and 13.25 after 0.10 mm off the head', () => {
    // (355.806 + 29.658) / 29.658 and (355.806 + 29.049) / 29.049.
    const { ratio } = foreseen(above, { remove: mm(0.1) });
    expect(ratio.before).toBeCloseTo(385.464 / 29.658, 3);
    expect(ratio.after).toBeCloseTo(384.855 / 29.049, 3);
  });

  it('a chamber that opens smaller than the bore loses less', () => {
    const small = foreseen({ ...above, opening: mm(80) }, { remove: mm(0.1) });
    // 25.4 − π/4 · 80² · 0.1 / 1000 = 24.897.
    expect(small.ratio.after).toBeCloseTo((355.806 + 29.658 - 0.50265) / (29.658 - 0.50265), 3);
  });

  it('a dome takes room away and a dish gives it', () => {
    const domed = foreseen({ ...above, dome: cubicMillimetres(2000) }, {});
    const dished = foreseen({ ...above, dish: cubicMillimetres(2000) }, {});
    expect(domed.ratio.before).toBeCloseTo((355.806 + 27.658) / 27.658, 3);
    expect(dished.ratio.before).toBeCloseTo((355.806 + 31.658) / 31.658, 3);
  });

  it('the deeper the cut the higher the ratio; as thick a base gasket undoes what came off the cylinder', () => {
    const cuts = fc.integer({ min: 0, max: 400_000 });
    fc.assert(
      fc.property(
        cuts,
        fc.integer({ min: 1000, max: 100_000 }),
        fc.constantFrom('head' as const, 'cylinder' as const),
        (first, more, face) => {
          const one = foreseen(above, { face, remove: nanometres(first) });
          const two = foreseen(above, { face, remove: nanometres(first + more) });
          expect(two.ratio.after).toBeGreaterThan(one.ratio.after);
          expect(two.squish.after.low).toBe(one.squish.after.low - more);
          const undone = foreseen(above, {
            face: 'cylinder',
            remove: nanometres(first),
            baseGasket: nanometres(first),
          });
          expect(undone.ratio.after).toBeCloseTo(undone.ratio.before, 12);
          expect(undone.squish.after).toEqual({ low: undone.squish.before, high: undone.squish.before });
        },
      ),
    );
  });

  it('squish after a cut of the head lies between all of the cut and none; off the cylinder all of it', () => {
    expect(foreseen(above, { remove: mm(0.1) }).squish.after).toEqual({ low: mm(0.6), high: mm(0.7) });
    expect(foreseen(above, { face: 'cylinder', remove: mm(0.1) }).squish.after).toEqual({
      low: mm(0.6),
      high: mm(0.6),
    });
  });

  it('a cut deeper than the chamber, and a piston through the head, leave nothing', () => {
    expect(faceCutForeseen(above, cut({ remove: mm(4.5) }))).toEqual({
      ok: false,
      reason: 'nothing-left-above-the-piston',
    });
    expect(faceCutForeseen(above, cut({ face: 'cylinder', remove: mm(5) })).ok).toBe(false);
  });
});
