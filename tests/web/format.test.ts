import { expect, test } from 'vitest';
import { formatFor } from '../../web/src/words/format.ts';

const format = formatFor('en-GB', 'Europe/Oslo');
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000);
const dayIn = (days: number) => inDays(days).toISOString().slice(0, 10);

test('a day has its year once it is more than half a year away, either way', () => {
  for (const days of [-30, 0, 30, 150]) expect(format.day(dayIn(days))).not.toMatch(/\d{4}/);
  for (const days of [-2500, -200, 200, 2500]) expect(format.day(dayIn(days))).toContain(dayIn(days).slice(0, 4));
});

test('since when has its year once that is more than half a year ago', () => {
  expect(format.since(inDays(-30).toISOString())).not.toMatch(/\d{4}/);
  expect(format.since('2019-11-19T12:00:00Z')).toBe('19 Nov 2019');
});
