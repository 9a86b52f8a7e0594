import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bolt } from '../../../web/src/drawings/bolt-facts.ts';
import { BoltMap, placeBolts } from '../../../web/src/drawings/bolt-map.tsx';
import { roundDown } from '../../../web/src/drawings/bore-facts.ts';
import { BoreMap } from '../../../web/src/drawings/bore-map.tsx';
import { ticksBetween } from '../../../web/src/drawings/chart-ticks.ts';
import { onCircle } from '../../../web/src/drawings/coordinates.ts';
import { moveArc } from '../../../web/src/drawings/lash-board.tsx';
import { RingClock, reachOf } from '../../../web/src/drawings/ring-clock.tsx';
import { WearChart } from '../../../web/src/drawings/wear-chart.tsx';
import { accessibleName, drawn, elementsWith, elementWith, unsound } from './markup.ts';

const bolt = (number: number, x: number, y: number, stagesDone = 0): Bolt => ({
  id: `b${number}`,
  number: String(number),
  x,
  y,
  stagesDone,
});
const square = [bolt(1, 0, 0, 2), bolt(2, 80, 0, 1), bolt(3, 80, 60, 1), bolt(4, 0, 60, 1)];

describe('the bolt map', () => {
  it.each([1, 2, 3, 5])('draws %i stages as so many segments a bolt, those done filled', (stages) => {
    const markup = drawn(<BoltMap bolts={[bolt(1, 0, 0, 1), bolt(2, 9, 9, stages)]} stage={1} stages={stages} />);
    expect(elementsWith(markup, 'data-stage', 'done')).toHaveLength(1 + stages);
    expect(elementsWith(markup, 'data-stage', 'open')).toHaveLength(stages - 1);
  });

  it('rings the next bolt and says it', () => {
    const markup = drawn(<BoltMap bolts={square} stage={2} stages={3} next="b2" />);
    expect(elementsWith(markup, 'class', 'nextring')).toHaveLength(1);
    expect(accessibleName(markup)).toBe('bolt map, 4 bolts, stage 2 of 3, next 2');
    expect(accessibleName(drawn(<BoltMap bolts={square} stage={3} stages={3} />))).toContain('done');
  });

  it('to be tapped, every bolt is a button that can be reached by key; else none is', () => {
    const buttons = (markup: string) => elementsWith(markup, 'role', 'button');
    const tapped = drawn(<BoltMap bolts={square} stage={2} stages={3} next="b2" onBolt={() => undefined} />);
    expect(buttons(tapped)).toHaveLength(4);
    for (const button of buttons(tapped)) expect(button).toContain('tabindex="0"');
    expect(tapped).toContain('aria-label="bolt 2, 1 of 3 stages done, next"');
    expect(tapped).toMatch(/^<svg role="group"/);
    expect(buttons(drawn(<BoltMap bolts={square} stage={2} stages={3} />))).toHaveLength(0);
  });

  it('keeps the pattern’s proportions and stays on the sheet', () => {
    const place = fc.double({ min: -500, max: 500, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.record({ x: place, y: place }), { minLength: 1, maxLength: 20 }), (bolts) => {
        const { places, height } = placeBolts(bolts, { width: 408, minHeight: 80 });
        for (const { x, y } of places) {
          expect(x).toBeGreaterThanOrEqual(30);
          expect(x).toBeLessThanOrEqual(378);
          expect(y).toBeGreaterThanOrEqual(30);
          expect(y).toBeLessThanOrEqual(height - 30);
        }
      }),
    );
    const { places } = placeBolts(square, { width: 408, minHeight: 80 });
    const [a, b, c] = places;
    if (a === undefined || b === undefined || c === undefined) throw new Error('three places');
    expect((b.x - a.x) / (b.y - c.y)).toBeCloseTo(80 / 60, 2);
  });
});

describe('the ring clock', () => {
  it('twelve is the exhaust side, three o’clock right of it', () => {
    expect(onCircle({ x: 0, y: 0 }, 10, 0)).toEqual({ x: 0, y: -10 });
    expect(onCircle({ x: 0, y: 0 }, 10, 90).x).toBeCloseTo(10, 9);
  });

  it('a gap over the pin is marked and said; one not yet placed isn’t said', () => {
    const markup = drawn(
      <RingClock
        gaps={[
          { mark: '1', name: 'top ring', angle: 20 },
          { mark: '4', name: 'lower rail', angle: 98, allowed: false },
          { mark: '2', name: 'second ring', angle: null },
        ]}
        forbidden={[{ from: 75, to: 105 }]}
      />,
    );
    expect(accessibleName(markup)).toBe('ring gaps: top ring 20°, lower rail 98°, in a forbidden zone');
    expect(elementsWith(markup, 'class', 'hotring')).toHaveLength(1);
    expect(elementWith(markup, 'data-gap', '2')).toBeUndefined();
  });

  it('marks of gaps close together don’t hide each other', () => {
    const gap = (angle: number | null) => ({ mark: String(angle), name: '', angle });
    expect(new Set(reachOf([gap(358), gap(2), gap(5)])).size).toBe(3);
    expect(new Set(reachOf([gap(0), gap(120), gap(240)])).size).toBe(1);
  });
});

describe('the bore map', () => {
  const level = (height: number, across: number | null, along: number | null) => ({ height, across, along });

  it('draws every level there is, and no point where none was taken', () => {
    const levels = [level(10, 88.02, 88.01), level(40, 88.01, null), level(65, null, null)];
    const markup = drawn(
      <BoreMap nominal={88} limit={88.05} levels={levels} result={{ outOfRound: null, taper: null }} />,
    );
    expect(markup.match(/data-level=/g)).toHaveLength(3);
    expect(elementsWith(markup, 'data-axis', 'across')).toHaveLength(2);
    expect(elementsWith(markup, 'data-axis', 'along')).toHaveLength(1);
  });

  it('says the result it was given, and works none out', () => {
    const levels = [level(10, 88.048, 88.039), level(65, 88.031, 88.029)];
    const say = (outOfRound: number | null, taper: number | null) =>
      accessibleName(drawn(<BoreMap nominal={88} levels={levels} result={{ outOfRound, taper }} />));
    expect(say(0.02, 0.03)).toBe('bore map: out-of-round 0.020, taper 0.030');
    expect(
      accessibleName(
        drawn(<BoreMap nominal={88} levels={[level(10, null, null)]} result={{ outOfRound: null, taper: null }} />),
      ),
    ).toBe('bore map: nothing measured yet');
  });

  it('any readings give sound markup, wide and narrow', () => {
    const maybe = fc.option(fc.double({ min: 0, max: 200 }));
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.record({ height: fc.integer({ min: 0, max: 300 }), across: maybe, along: maybe }), {
          maxLength: 9,
          selector: (one) => one.height,
        }),
        maybe.filter((limit) => limit === null || Number.isFinite(limit)),
        fc.boolean(),
        (levels, limit, narrow) => {
          const result = { outOfRound: 0.01, outOfRoundLevel: 0, taper: 0.01, taperAxis: 'along' } as const;
          const markup = drawn(<BoreMap nominal={88} limit={limit} levels={levels} narrow={narrow} result={result} />);
          expect(unsound(markup)).toEqual([]);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('scale bars and magnifications are round and never too large', () => {
    expect([0.0123, 430, 9.99, 2.9].map(roundDown)).toEqual([0.01, 300, 5, 2]);
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (value) => {
        expect(roundDown(value)).toBeLessThanOrEqual(value * (1 + 1e-12));
        expect(roundDown(value)).toBeGreaterThan(value * 0.49);
      }),
    );
  });
});

describe('the lash board’s arrows', () => {
  it('an exchange is two arcs that don’t lie on each other', () => {
    const [a, b] = [
      { x: 100, y: 100 },
      { x: 440, y: 100 },
    ];
    const bend = (line: string) => Number(/C-?[\d.]+ (-?[\d.]+)/.exec(line)?.[1]);
    expect(bend(moveArc(b, a).line)).toBeLessThan(60);
    expect(bend(moveArc(a, b).line)).toBeGreaterThan(140);
  });
});

describe('the wear chart', () => {
  const points = [
    { hours: 0, value: 88.006, guard: 0.003 },
    { hours: 121, value: 88.021, guard: 0.003 },
    { hours: 246, value: 88.036, guard: 0.003 },
  ];

  it('draws the readings it got, and no reach of its own', () => {
    const markup = drawn(<WearChart points={points} limit={88.05} />);
    expect(elementsWith(markup, 'data-mark', 'reading')).toHaveLength(3);
    expect(elementWith(markup, 'data-layer', 'reach')).toBeUndefined();
    expect(accessibleName(markup)).toBe('wear over the hours, service limit 88.050');
  });

  it('says how many hours are left from the last reading on', () => {
    const markup = drawn(<WearChart points={points} limit={88.05} reach={{ earliest: 326.4, latest: 391 }} />);
    expect(accessibleName(markup)).toContain('80 to 145 h left');
    expect(
      accessibleName(drawn(<WearChart points={points} limit={88.03} reach={{ earliest: 190, latest: 260 }} />)),
    ).toContain('0 to 14 h left');
  });

  it('ticks are inside the range and evenly spaced', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e3, max: 1e3, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        (low, span, about) => {
          const ticks = ticksBetween(low, low + span, about);
          expect(ticks.length).toBeLessThanOrEqual(about + 1);
          for (const tick of ticks) {
            expect(tick).toBeGreaterThanOrEqual(low - span * 1e-6);
            expect(tick).toBeLessThanOrEqual(low + span * (1 + 1e-6));
          }
        },
      ),
    );
  });
});
