/*
 * Sources:
 * - Displacements of air-cooled fours at 69 mm stroke over bores of 77 to 94 mm: the "Engine displacement table (CC's)" at
 *   partsemporium.co.uk/GUIDE air cooled engine size calculator.htm, printed in whole cm³; the bore of 90 mm stands there as
 *   1755 and at limebug.com/engine-cc-calculation as 1755 too (π/4·90²·69·4 = 1755.84: printed cut off, not rounded).
 * - 4.030 × 3.480 in × 8 = about 5.819 L: numbernumber.net/tools/engine-displacement-calculator.
 * - Cam points from duration and centre: 228°, centre 108° after top → opens 6° before top, closes 42° after bottom,
 *   a forum thread on degreeing a slant cam (forabodiesonly.com, post 1970493881); 260°, 5° advanced → 25 – 55 and 65 – 15, ausmini.com/forums p=237565.
 * - Valve to piston: no published worked example with all its inputs was found. Held against kinematics of its own: the
 *   piston pin as the point of the bore's axis at the rod's length from the crank pin, found by halving, and the turn searched
 *   by hundredths of a degree. Oil by level and by weight: π/4·(D² − d²)·Δh and m = ρ·V (US quart 946.352946 mL, NIST SP 811).
 */
import { describe, expect, it } from 'vitest';
import { calculate } from '#domain/build/calculations/kinds.ts';

const mm = (value: number | string) => ({ value: String(value), unit: 'mm' });
const inches = (value: string) => ({ value, unit: 'in' });
const deg = (value: number) => ({ value: String(value), unit: 'deg' });

function figuresOf(...asked: Parameters<typeof calculate>) {
  const worked = calculate(...asked);
  if (!worked.ok) throw new Error(worked.faults.map(({ words }) => words).join(' '));
  return { rows: worked.rows, of: (code: string) => Number(worked.figures[code]?.value) };
}

describe('bores side by side', () => {
  it('come to the printed displacements of a table of bores', () => {
    const printed = [
      [77, 1285],
      [83, 1493],
      [87, 1641],
      [88, 1679],
      [90, 1755],
      [90.5, 1775],
      [92, 1835],
      [94, 1915],
    ] as const;
    const { rows, of } = figuresOf('bore-comparison', {
      stroke: mm(69),
      bore: mm('85.5'),
      cylinders: 4,
      sizes: printed.map(([bore]) => ({ name: String(bore), bore: mm(bore) })),
    });
    expect(Math.round(of('displacement'))).toBe(1585);
    rows.forEach(({ figures }, index) => {
      const apart = Number(figures.displacement?.value) - (printed[index]?.[1] ?? 0);
      expect(Math.abs(apart)).toBeLessThan(1);
    });
  });

  it('in inches, an eight of 4.030 × 3.480 in is 5.819 L', () => {
    const { rows } = figuresOf('bore-comparison', {
      stroke: inches('3.480'),
      bore: inches('4.000'),
      cylinders: 8,
      sizes: [{ name: '+0.030', bore: inches('4.030') }],
    });
    expect(Number(rows[0]?.figures.displacement?.value)).toBeCloseTo(5819, -0.5);
  });
});

describe('cam points', () => {
  it('of 228° centred at 108°: 6 before top, 42 after bottom', () => {
    const { of } = figuresOf('cam-points', {
      intakeDuration: deg(228),
      exhaustDuration: deg(228),
      intakeCentre: deg(108),
      exhaustCentre: deg(102),
    });
    expect([of('intakeOpensBeforeTop'), of('intakeClosesAfterBottom'), of('overlap')]).toEqual([6, 42, 18]);
  });

  it('of 260° about 110°, advanced by 5°: 25 – 55 and 65 – 15', () => {
    const { of } = figuresOf('cam-points', {
      intakeDuration: deg(260),
      exhaustDuration: deg(260),
      intakeCentre: deg(105),
      exhaustCentre: deg(115),
    });
    expect([of('intakeOpensBeforeTop'), of('intakeClosesAfterBottom')]).toEqual([25, 55]);
    expect([of('exhaustOpensBeforeBottom'), of('exhaustClosesAfterTop')]).toEqual([65, 15]);
  });
});

describe('valve to piston', () => {
  const [stroke, rod, clearanceAtTop, valveAngle, lash] = [80, 140, 2.9, 14.5, 0.12];
  const lift = (angle: number) =>
    Math.abs(angle - 106) < 130 ? 8.9 * Math.cos((Math.PI * (angle - 106)) / 260) ** 2 : 0;
  const lifts = Array.from({ length: 261 }, (_, index) => [index - 24, Number(lift(index - 24).toFixed(4))] as const);

  function pinAbove(angle: number): number {
    const turn = (angle * Math.PI) / 180;
    const [x, y] = [(stroke / 2) * Math.sin(turn), (stroke / 2) * Math.cos(turn)];
    let [low, high] = [y, y + rod + 1];
    for (let halving = 0; halving < 100; halving += 1) {
      const middle = (low + high) / 2;
      if (Math.hypot(x, middle - y) < rod) low = middle;
      else high = middle;
    }
    return low;
  }

  it('agrees with a search over kinematics of its own', () => {
    const table = new Map(lifts);
    const valveAt = (angle: number) => {
      const [whole, part] = [Math.floor(angle), angle - Math.floor(angle)];
      return Math.max(0, (table.get(whole) ?? 0) * (1 - part) + (table.get(whole + 1) ?? 0) * part - lash);
    };
    const along = Math.cos((valveAngle * Math.PI) / 180);
    const clearance = (angle: number) => clearanceAtTop + (pinAbove(0) - pinAbove(angle)) * along - valveAt(angle);
    const least = Array.from({ length: 6001 }, (_, index) => clearance(index / 100 - 20)).reduce((a, b) =>
      Math.min(a, b),
    );
    const { of } = figuresOf('valve-to-piston', {
      stroke: mm(stroke),
      rodLength: mm(rod),
      clearanceAtTop: mm(clearanceAtTop),
      valveAngle: deg(valveAngle),
      lash: mm(lash),
      rockerRatio: 1,
      table: lifts.map(([at, value]) => ({ at: deg(at), lift: mm(value) })),
      at: deg(20),
    });
    expect(of('leastClearance')).toBeCloseTo(least, 3);
    expect(of('clearance')).toBeCloseTo(clearance(20), 3);
  });
});

describe('oil', () => {
  it('by level, round a rod: π/4·(37² − 12.5²)·25 mm to take out', () => {
    const given = { tubeBore: mm(37), rodDiameter: mm('12.5'), levelFound: mm(105), levelWanted: mm(130) };
    expect(figuresOf('oil-level', given).of('add')).toBeCloseTo(-23.81, 1);
  });

  it('by weight: a US quart at 0.8654 g/mL weighs 819.0 g', () => {
    const given = { density: 0.8654, volume: { value: '1', unit: 'qt-us' } };
    expect(figuresOf('fill-by-weight', given).of('mass')).toBeCloseTo(946.352946 * 0.8654, 1);
  });
});
