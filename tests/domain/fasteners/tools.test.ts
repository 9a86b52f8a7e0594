import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { settingWithAdapter, torqueAtBolt } from '#domain/fasteners/adapter.ts';
import { parseThread } from '#domain/fasteners/thread.ts';
import { guardTorque, suspectedSwap } from '#domain/fasteners/typo-guard.ts';
import { type TorqueWrench, wrenchFit, wrenchFor } from '#domain/fasteners/wrench.ts';
import { microDegrees, micronewtonMetres, nanometres } from '#domain/units/quantity.ts';

const torque = (newtonMetres: number) => micronewtonMetres(Math.round(newtonMetres * 1e6));
const stage = (newtonMetres: number) => ({ ordinal: 1, kind: 'torque' as const, torque: torque(newtonMetres) });

describe('a thread as written', () => {
  it('is read with its pitch, or with the coarse pitch where none is given', () => {
    expect(parseThread('M8x1.25')).toEqual({ diameter: 8_000_000, pitch: 1_250_000 });
    expect(parseThread('m 10 × 1.25')).toEqual({ diameter: 10_000_000, pitch: 1_250_000 });
    expect(parseThread('M6')).toEqual({ diameter: 6_000_000, pitch: 1_000_000 });
  });

  it('is refused when it is none', () => {
    for (const text of ['', '8x1.25', 'M', 'M8x', 'M8x0', 'M8x5', 'M11', '3/8-16']) {
      expect(parseThread(text), text).toBeUndefined();
    }
  });
});

describe('the guard against typing slips', () => {
  it('lets the usual figure of an M8 8.8 pass, notes above three quarters of proof, warns above all of it', () => {
    const bolt = { thread: 'M8', propertyClass: '8.8' };
    const usual = guardTorque(bolt, stage(25));
    expect(usual.kind === 'usual' && usual.atThreeQuarters / 1e6).toBeCloseTo(25.48, 2);
    expect(guardTorque(bolt, stage(28))).toMatchObject({ kind: 'note' });
    expect(guardTorque(bolt, stage(340))).toMatchObject({ kind: 'warn', swap: null });
  });

  it('asks whether the units were swapped when the figure would be bearable in the other one', () => {
    expect(guardTorque({ thread: 'M8', propertyClass: '8.8' }, stage(38))).toMatchObject({
      kind: 'warn',
      swap: 'N·m taken for lbf·ft',
    });
  });

  it('keeps quiet about angles and about bolts it doesn’t know', () => {
    const bolt = { thread: 'M8', propertyClass: '8.8' };
    const angle = { ordinal: 2, kind: 'angle' as const, angle: microDegrees(90_000_000) };
    expect(guardTorque(bolt, angle)).toEqual({ kind: 'not-judged', why: 'angle-stage' });
    expect(guardTorque({ ...bolt, thread: 'W 3/8' }, stage(20))).toEqual({ kind: 'not-judged', why: 'thread-unknown' });
    expect(guardTorque({ ...bolt, propertyClass: '' }, stage(20))).toEqual({
      kind: 'not-judged',
      why: 'class-unknown',
    });
  });

  it('sees no swap in a figure that is merely different', () => {
    expect(suspectedSwap(torque(20), torque(20))).toBeNull();
    expect(suspectedSwap(torque(24), torque(20))).toBeNull();
    expect(suspectedSwap(torque(27), torque(20))).toBe('N·m taken for lbf·ft');
  });
});

describe('a torque wrench', () => {
  const wrench = (changes: Partial<TorqueWrench> = {}): TorqueWrench => ({
    code: 'TW-2',
    largest: torque(60),
    calibratedUntil: '2026-12-31',
    pullsSinceCalibration: 120,
    pullsAllowed: 5000,
    ...changes,
  });
  const day = '2026-11-25';

  it('is used from a fifth of its largest setting up to it', () => {
    expect(wrenchFit(wrench(), torque(12), day)).toEqual({ ok: true, deviation: 40_000 });
    expect(wrenchFit(wrench(), torque(60), day)).toMatchObject({ ok: true });
    expect(wrenchFit(wrench(), torque(11.9), day)).toMatchObject({ ok: false, faults: [{ kind: 'below-its-range' }] });
    expect(wrenchFit(wrench(), torque(60.1), day)).toMatchObject({ ok: false, faults: [{ kind: 'above-its-range' }] });
  });

  it('of up to 10 N·m may be 6 % off', () => {
    expect(wrenchFit(wrench({ largest: torque(10) }), torque(5), day)).toEqual({ ok: true, deviation: 60_000 });
  });

  it('is good on the last day of its calibration and not the day after, nor past its pulls', () => {
    expect(wrenchFit(wrench(), torque(30), '2026-12-31').ok).toBe(true);
    expect(wrenchFit(wrench({ pullsSinceCalibration: 5000 }), torque(30), '2027-01-01')).toEqual({
      ok: false,
      faults: [
        { kind: 'calibration-past', until: '2026-12-31' },
        { kind: 'too-many-pulls', allowed: 5000 },
      ],
    });
    expect(wrenchFit(wrench({ calibratedUntil: null }), torque(30), day).ok).toBe(false);
  });

  it('is picked as the smallest that fits', () => {
    const wrenches = [wrench({ code: 'TW-3', largest: torque(200) }), wrench(), wrench({ code: 'TW-1' })];
    expect(wrenchFor(wrenches, torque(45), day)?.code).toBe('TW-1');
    expect(wrenchFor(wrenches, torque(90), day)?.code).toBe('TW-3');
    expect(wrenchFor(wrenches, torque(5), day)).toBeUndefined();
  });
});

describe('an adapter on the wrench', () => {
  const use = (degrees: number) => ({
    torque: torque(60),
    wrenchLength: nanometres(400_000_000),
    adapterLength: nanometres(45_000_000),
    angle: microDegrees(Math.round(degrees * 1e6)),
  });
  const setting = (degrees: number) => {
    const outcome = settingWithAdapter(use(degrees));
    return outcome.ok ? outcome.setting : Number.NaN;
  };

  it('straight on lowers 60 to 53.9, square to the handle changes nothing, turned back raises', () => {
    expect(setting(0) / 1e6).toBeCloseTo(53.93, 2);
    expect(setting(90)).toBe(60_000_000);
    expect(setting(270)).toBe(60_000_000);
    expect(setting(180)).toBeGreaterThan(60_000_000);
  });

  it('needs the more setting the farther it is turned back, the same to either side', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 179, noNaN: true }), (degrees) => {
        expect(setting(degrees + 1)).toBeGreaterThan(setting(degrees));
        expect(setting(-degrees)).toBe(setting(degrees));
      }),
    );
  });

  it('that reaches back past the hand has no lever', () => {
    const back = { ...use(180), adapterLength: nanometres(400_000_000) };
    expect(settingWithAdapter(back)).toEqual({ ok: false, reason: { kind: 'no-lever' } });
  });
});

describe('what the bolt gets through an adapter', () => {
  it('is the stage’s figure when the wrench shows what was to be set', () => {
    const whole = (min: number, max: number) => fc.integer({ min, max });
    fc.assert(
      fc.property(whole(5, 200), whole(200, 900), whole(10, 150), whole(0, 180), (torque, wrench, reach, degrees) => {
        const adapter = {
          wrenchLength: nanometres(wrench * 1e6),
          adapterLength: nanometres(reach * 1e6),
          angle: microDegrees(degrees * 1e6),
        };
        const wanted = micronewtonMetres(torque * 1e6);
        const set = settingWithAdapter({ torque: wanted, ...adapter });
        if (!set.ok) throw new Error('a short adapter always leaves a lever');
        const got = torqueAtBolt(set.setting, adapter);
        expect(got.ok && Math.abs(got.torque - wanted)).toBeLessThanOrEqual(2);
      }),
    );
  });
});
