import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { DemandLine } from '#domain/stock/demand.ts';
import { lineState } from '#domain/stock/line-state.ts';

const none: DemandLine = { reserved: 0, short: 0, issued: 0, cancelled: 0, notAsked: 0 };
const calm = { jobIsShort: false, heldForYes: false };

test('what is reserved is picked now only when the job lacks nothing and no yes is waited for', () => {
  const line = { ...none, reserved: 2 };
  expect(lineState(line, calm)).toBe('pick now');
  expect(lineState(line, { ...calm, jobIsShort: true })).toBe('reserved');
  expect(lineState(line, { ...calm, heldForYes: true })).toBe('reserved');
});

test('a shortage outweighs all else, whatever else the line holds', () => {
  const count = fc.nat(9);
  const lines = fc.record({
    reserved: count,
    short: fc.integer({ min: 1, max: 9 }),
    issued: count,
    cancelled: count,
    notAsked: count,
  });
  fc.assert(
    fc.property(
      lines,
      fc.boolean(),
      (line, heldForYes) => lineState(line, { jobIsShort: true, heldForYes }) === 'short',
    ),
  );
});

test('a line with nothing left to do is issued if anything was, else cancelled', () => {
  expect(lineState({ ...none, notAsked: 1, issued: 1 }, calm)).toBe('not asked');
  expect(lineState({ ...none, issued: 1, cancelled: 1 }, calm)).toBe('issued');
  expect(lineState({ ...none, cancelled: 1 }, calm)).toBe('cancelled');
});
