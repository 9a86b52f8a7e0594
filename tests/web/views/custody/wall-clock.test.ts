import { expect, test } from 'vitest';
import { instantOf, wallClockOf } from '../../../../web/src/views/custody/wall-clock.ts';

const zone = 'Europe/Oslo';

test('a moment is keyed and shown by the clock on the shop\u2019s wall, winter and summer', () => {
  expect(wallClockOf('2026-11-26T14:07:30Z', zone)).toBe('2026-11-26T15:07');
  expect(instantOf('2026-11-26T15:07', zone)).toBe('2026-11-26T14:07:00.000Z');
  expect(instantOf('2026-07-01T15:07', zone)).toBe('2026-07-01T13:07:00.000Z');
  expect(instantOf('', zone)).toBeUndefined();
});

test('in the hour that comes twice the first is meant; in the one left out, a time near it', () => {
  expect(instantOf('2026-10-25T02:30', zone)).toBe('2026-10-25T00:30:00.000Z');
  expect(instantOf('2026-03-29T02:30', zone)).toBe('2026-03-29T00:30:00.000Z');
});
