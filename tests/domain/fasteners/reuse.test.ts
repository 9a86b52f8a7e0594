import { describe, expect, it } from 'vitest';
import type { FastenerStage } from '#domain/fasteners/fastener-set.ts';
import { afterLoosening, isTorqueToYield } from '#domain/fasteners/reuse.ts';
import { torqueNotes } from '#domain/spec-sheet/torque-notes.ts';
import { microDegrees, micronewtonMetres, nanometres } from '#domain/units/quantity.ts';

const positions = [1, 2, 3].map((number) => ({ number, x: nanometres(number), y: nanometres(0) }));
const torque: FastenerStage = { ordinal: 1, kind: 'torque', torque: micronewtonMetres(20_000_000) };
const angle: FastenerStage = { ordinal: 2, kind: 'angle', angle: microDegrees(90_000_000) };

describe('loosening a set', () => {
  it('asks for as many new ones as it has, for a look at each, or for nothing', () => {
    expect(afterLoosening({ positions, reuse: 'one-time' })).toEqual({ kind: 'renew', count: 3 });
    expect(afterLoosening({ positions, reuse: 'inspect' })).toEqual({ kind: 'inspect' });
    expect(afterLoosening({ positions, reuse: 'reuse' })).toEqual({ kind: 'nothing' });
  });
});

describe('past yield', () => {
  it('is a set that is used once and ends with an angle, in whatever order its stages are listed', () => {
    expect(isTorqueToYield({ reuse: 'one-time', stages: [angle, torque] })).toBe(true);
    expect(isTorqueToYield({ reuse: 'one-time', stages: [torque] })).toBe(false);
    expect(isTorqueToYield({ reuse: 'inspect', stages: [torque, angle] })).toBe(false);
    expect(isTorqueToYield({ reuse: 'one-time', stages: [{ ...torque, ordinal: 3 }, angle] })).toBe(false);
  });
});

describe('the torques of a sheet', () => {
  const set = (value: string, unit = 'N.m') => ({
    code: 'cover',
    name: 'Cover bolts',
    thread: 'M6',
    propertyClass: '8.8',
    condition: 'dry' as const,
    tool: '',
    reuse: 'reuse' as const,
    orderIsMakers: true,
    source: '',
    page: '',
    positions: [],
    stages: [{ torque: { value, unit }, angle: null }],
  });

  it('are noted above three quarters of the proof load and warned of above all of it, in any unit', () => {
    expect(torqueNotes({ fasteners: [set('10')] })).toEqual([]);
    expect(torqueNotes({ fasteners: [set('10'), set('12')] })).toMatchObject([
      { pointer: '/fasteners/1/stages/0/torque', kind: 'note', swap: null },
    ]);
    expect(torqueNotes({ fasteners: [set('15')] })).toMatchObject([{ kind: 'warn', swap: 'N·m taken for lbf·ft' }]);
    expect(torqueNotes({ fasteners: [set('12', 'lbf.ft')] })).toMatchObject([{ kind: 'warn' }]);
    expect(torqueNotes({ fasteners: [set('ten')] })).toEqual([]);
  });
});
