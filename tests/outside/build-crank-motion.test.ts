// Source: numerical mathematics. Where the piston is comes from a solution by halving that uses none of the closed
// formula; its speed and acceleration from differences of those positions, and back from them by integration. Lift
// between the lines of a table and the least clearance come from SciPy (data/valve-lift.json), a separate program.
import { describe, expect, it } from 'vitest';
import { crankAngleAt, peakPistonSpeed, pistonMotion } from '#domain/build/piston-motion.ts';
import { portHeight, portTiming } from '#domain/build/ports.ts';
import { leastClearance, lobeLiftAt } from '#domain/build/valve-lift.ts';
import { microDegrees, nanometres } from '#domain/units/quantity.ts';
import lifts from './data/valve-lift.json' with { type: 'json' };

const mm = (value: number) => nanometres(Math.round(value * 1e6));
const deg = (value: number) => microDegrees(Math.round(value * 1e6));

/** Piston below top dead centre in mm: the point of the bore's axis that is one rod's length from the crank pin. */
function solvedBelow(throwOfCrank: number, rod: number, degrees: number): number {
  const turn = (degrees * Math.PI) / 180;
  const pin = { x: throwOfCrank * Math.sin(turn), y: throwOfCrank * Math.cos(turn) };
  let [low, high] = [pin.y, pin.y + 2 * rod];
  for (let step = 0; step < 100; step += 1) {
    const middle = (low + high) / 2;
    if (Math.hypot(pin.x, middle - pin.y) < rod) low = middle;
    else high = middle;
  }
  return throwOfCrank + rod - (low + high) / 2;
}

const cranks = [
  { stroke: 58.5, rod: 103, speed: 11_500 },
  { stroke: 54.5, rod: 105, speed: 9_000 },
  { stroke: 88.4, rod: 150, speed: 6_000 },
  { stroke: 60, rod: 61, speed: 3_000 },
] as const;

describe.each(cranks)('a crank of $stroke mm with a rod of $rod mm at $speed a minute', ({ stroke, rod, speed }) => {
  const crank = { stroke: mm(stroke), rod: mm(rod) };
  const perSecond = (speed / 60) * 360;
  const angles = [0, 3, 17, 45, 72, 90, 101, 135, 179, 180, 222, 300, 357];

  it.each(angles)('stands, goes and is driven at %d° as the solved positions tell', (angle) => {
    const motion = pistonMotion(crank, speed, deg(angle));
    const step = 0.05;
    const [before, here, after] = [-step, 0, step].map((by) => solvedBelow(stroke / 2, rod, angle + by)) as [
      number,
      number,
      number,
    ];
    const time = step / perSecond;
    const scale = stroke * (perSecond / 57.3);
    expect(motion?.below ?? Number.NaN).toBeCloseTo(here, 8);
    expect(Math.abs((motion?.speed ?? Number.NaN) * 1000 - (after - before) / (2 * time)) / scale).toBeLessThan(1e-5);
    const acceleration = (after - 2 * here + before) / time ** 2;
    const hardest = stroke * (perSecond / 57.3) ** 2;
    expect(Math.abs((motion?.acceleration ?? Number.NaN) * 1000 - acceleration) / hardest).toBeLessThan(1e-4);
  });

  it('has a speed that adds up to the stroke, and an acceleration that adds up to the speed', () => {
    const steps = 18_000;
    const time = 180 / steps / perSecond;
    let [travelled, gained] = [0, 0];
    for (let index = 0; index < steps; index += 1) {
      const motion = pistonMotion(crank, speed, deg(((index + 0.5) * 180) / steps));
      travelled += (motion?.speed ?? 0) * time * 1000;
      gained += (motion?.acceleration ?? 0) * time;
      if (index + 1 === steps / 2) {
        expect(gained).toBeCloseTo(pistonMotion(crank, speed, deg(90))?.speed ?? Number.NaN, 4);
      }
    }
    expect(travelled).toBeCloseTo(stroke, 4);
    expect(gained).toBeCloseTo(0, 3);
  });

  it('is fastest where no sample of a whole turn is faster, and hardest driven at the top', () => {
    const peak = peakPistonSpeed(crank, speed);
    const samples = Array.from({ length: 7200 }, (_, index) => pistonMotion(crank, speed, deg(index / 20)));
    const fastest = Math.max(...samples.map((motion) => Math.abs(motion?.speed ?? 0)));
    expect(peak?.speed ?? 0).toBeGreaterThanOrEqual(fastest - 1e-9);
    expect(peak?.speed ?? 0).toBeCloseTo(fastest, 3);
    const hardest = Math.max(...samples.map((motion) => Math.abs(motion?.acceleration ?? 0)));
    const top = pistonMotion(crank, speed, deg(0))?.acceleration ?? 0;
    expect(top).toBeCloseTo((stroke / 2000) * ((speed * 2 * Math.PI) / 60) ** 2 * (1 + stroke / 2 / rod), 3);
    expect(hardest).toBeLessThanOrEqual(top + 1e-6);
  });

  it.each([0.4, 5, 21.3, 40, 54])('opens a port %d mm down where the solved piston stands there', (height) => {
    const opening = portTiming(crank, mm(height));
    const opens = (opening?.opensAfterTop ?? Number.NaN) / 1e6;
    expect(solvedBelow(stroke / 2, rod, opens)).toBeCloseTo(height, 5);
    expect((opening?.open ?? Number.NaN) / 1e6).toBeCloseTo(360 - 2 * opens, 6);
    expect((portHeight(crank, opening?.open ?? deg(0)) ?? Number.NaN) / 1e6).toBeCloseTo(height, 5);
  });

  it('never opens a port beyond its stroke', () => {
    expect(portTiming(crank, mm(stroke + 0.001))).toBeUndefined();
    expect(crankAngleAt(crank, mm(-0.001))).toBeUndefined();
  });
});

describe('a lift table', () => {
  it.each(lifts.tables.map((table, index) => ({ ...table, index })))(
    'number $index is read as SciPy reads it',
    (table) => {
      const points = table.at.map((at, index) => ({ at: deg(at), lift: mm(table.lift[index] ?? 0) }));
      for (const [at, lift] of table.checks) {
        expect(lobeLiftAt(points, deg(at ?? 0)) / 1e6).toBeCloseTo(lift ?? Number.NaN, 5);
      }
      expect(lobeLiftAt(points, deg((table.at[0] ?? 0) - 1))).toBe(0);
      expect(lobeLiftAt(points, deg((table.at.at(-1) ?? 0) + 1))).toBe(0);
    },
  );

  it('has its least clearance where a dense search by SciPy finds it', () => {
    const { throw: throwOfCrank, rod, clearanceAtTop, valveAngle, lash, at, clearance } = lifts.least;
    const [table] = lifts.tables;
    const found = leastClearance({
      crank: { stroke: mm(2 * throwOfCrank), rod: mm(rod) },
      motion: {
        table: (table?.at ?? []).map((angle, index) => ({ at: deg(angle), lift: mm(table?.lift[index] ?? 0) })),
        rockerRatio: 1,
        lash: mm(lash),
      },
      clearanceAtTop: mm(clearanceAtTop),
      valveAngle: deg(valveAngle),
    });
    expect((found?.clearance ?? Number.NaN) / 1e6).toBeCloseTo(clearance, 5);
    expect((found?.at ?? Number.NaN) / 1e6).toBeCloseTo(at, 1);
  });
});
