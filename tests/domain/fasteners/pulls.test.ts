import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FastenerSet, usualTolerance } from '#domain/fasteners/fastener-set.ts';
import { checkPull, nextPull, type Pull, setProgress } from '#domain/fasteners/pulls.ts';
import { microDegrees, micronewtonMetres, nanometres } from '#domain/units/quantity.ts';

const torque = (newtonMetres: number) => micronewtonMetres(Math.round(newtonMetres * 1e6));

const head: FastenerSet = {
  code: 'head',
  name: 'head nuts',
  positions: [1, 2, 3, 4].map((number) => ({
    number,
    x: nanometres(number % 2 === 0 ? 40_000_000 : -40_000_000),
    y: nanometres(number > 2 ? 40_000_000 : -40_000_000),
  })),
  orderIsMakers: true,
  thread: 'M10x1.25',
  propertyClass: '10.9',
  condition: 'oiled',
  reuse: 'reuse',
  stages: [
    { ordinal: 1, kind: 'torque', torque: torque(20) },
    { ordinal: 2, kind: 'torque', torque: torque(40) },
    { ordinal: 3, kind: 'angle', angle: microDegrees(90_000_000) },
  ],
  tolerance: usualTolerance,
};

const pull = (fastener: number, stage: number, newtonMetres: number): Pull => ({
  fastener,
  stage,
  kind: 'torque',
  torque: torque(newtonMetres),
});
const turn = (fastener: number, degrees: number): Pull => ({
  fastener,
  stage: 3,
  kind: 'angle',
  angle: microDegrees(degrees * 1_000_000),
});
const firstStage = [1, 2, 3, 4].map((number) => pull(number, 1, 20));
const secondStage = [1, 2, 3, 4].map((number) => pull(number, 2, 40));

describe('the pull that comes next', () => {
  it('is the first position of the first stage, then the next position', () => {
    expect(nextPull(head, [])).toEqual({ fastener: 1, stage: head.stages[0] });
    expect(nextPull(head, [pull(1, 1, 20)])).toEqual({ fastener: 2, stage: head.stages[0] });
  });

  it('is of the next stage only after all of the last', () => {
    expect(nextPull(head, firstStage.slice(0, 3))?.fastener).toBe(4);
    expect(nextPull(head, firstStage)).toEqual({ fastener: 1, stage: head.stages[1] });
  });

  it('is none when every position has had every stage', () => {
    const all = [...firstStage, ...secondStage, ...[1, 2, 3, 4].map((number) => turn(number, 90))];
    expect(nextPull(head, all)).toBeUndefined();
    expect(setProgress(head, all).complete).toBe(true);
  });
});

describe('a pull', () => {
  it('that comes next and is right is ok', () => {
    expect(checkPull(head, [pull(1, 1, 20)], pull(2, 1, 20))).toEqual({ kind: 'ok' });
  });

  it('of a position that had it before is a repeat', () => {
    expect(checkPull(head, [pull(1, 1, 20)], pull(1, 1, 20))).toEqual({ kind: 'repeated', fastener: 1, stage: 1 });
  });

  it('that jumps positions says which were missed', () => {
    expect(checkPull(head, [pull(1, 1, 20)], pull(4, 1, 20))).toEqual({ kind: 'missed', skipped: [2, 3] });
  });

  it('of a stage begun before the last is complete says what is still to do', () => {
    expect(checkPull(head, firstStage.slice(0, 2), pull(1, 2, 40))).toEqual({
      kind: 'stage-before-not-complete',
      stage: 1,
      missing: [3, 4],
    });
  });

  it('too weak or too strong is out of tolerance, at the bounds it is not', () => {
    expect(checkPull(head, [], pull(1, 1, 20.8))).toEqual({ kind: 'ok' });
    expect(checkPull(head, [], pull(1, 1, 19.2))).toEqual({ kind: 'ok' });
    expect(checkPull(head, [], pull(1, 1, 20.800_001))).toMatchObject({ kind: 'out-of-tolerance', high: 20_800_000 });
    expect(checkPull(head, [], pull(1, 1, 19.199_999))).toMatchObject({ kind: 'out-of-tolerance', swap: null });
  });

  it('of 20 lbf·ft where 20 N·m are asked looks like swapped units', () => {
    expect(checkPull(head, [], pull(1, 1, 27.116))).toMatchObject({ swap: 'N·m taken for lbf·ft' });
    expect(checkPull(head, [], pull(1, 1, 14.751))).toMatchObject({ swap: 'lbf·ft taken for N·m' });
  });

  it('by an angle is judged as an angle', () => {
    const before = [...firstStage, ...secondStage];
    expect(checkPull(head, before, turn(1, 88))).toEqual({ kind: 'ok' });
    expect(checkPull(head, before, turn(1, 80))).toMatchObject({ kind: 'out-of-tolerance', low: 85_000_000 });
    expect(checkPull(head, before, pull(1, 3, 60))).toEqual({ kind: 'wrong-quantity', asked: 'angle' });
  });

  it('of a position or stage that the set doesn’t have is unknown', () => {
    expect(checkPull(head, [], pull(7, 1, 20))).toEqual({ kind: 'unknown-position', fastener: 7 });
    expect(checkPull(head, [], pull(1, 9, 20))).toEqual({ kind: 'unknown-stage', stage: 9 });
  });

  it('out of tolerance doesn’t count, so that the position has to be pulled again', () => {
    const weak = [pull(1, 1, 12)];
    expect(setProgress(head, weak).stages[0]).toEqual({ stage: 1, done: [], missing: [1, 2, 3, 4] });
    expect(checkPull(head, weak, pull(1, 1, 20))).toEqual({ kind: 'ok' });
  });
});

describe('any log of pulls', () => {
  it('takes in only what comes next, and then is complete after exactly positions × stages pulls', () => {
    const attempt = fc.record({ fastener: fc.integer({ min: 0, max: 5 }), stage: fc.integer({ min: 0, max: 4 }) });
    fc.assert(
      fc.property(fc.array(attempt, { maxLength: 120 }), (attempts) => {
        const log: Pull[] = [];
        for (const { fastener, stage } of attempts) {
          const candidate = stage === 3 ? turn(fastener, 90) : pull(fastener, stage, stage === 2 ? 40 : 20);
          const next = nextPull(head, log);
          const isNext = next?.fastener === fastener && next.stage.ordinal === stage;
          expect(checkPull(head, log, candidate).kind === 'ok').toBe(isNext);
          if (isNext) log.push(candidate);
        }
        const progress = setProgress(head, log);
        expect(progress.stages.flatMap(({ done }) => done)).toHaveLength(log.length);
        expect(progress.complete).toBe(log.length === 12);
      }),
    );
  });
});
