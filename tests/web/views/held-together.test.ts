import { expect, test } from 'vitest';
import { heldTogether } from '../../../web/src/views/custody/held-together.ts';

const engine = { id: 'e1', serial: 'H355-0401', family: 'Halden 355' };
const oskar = { kind: 'person', id: 'p1', name: 'Oskar Pell' } as const;
const bay = { kind: 'bay', id: 'b1', name: 'Bay 1' } as const;
const place = { id: 'b1', name: 'Bay 1' };
const held = (subject: { kind: 'engine' | 'tray'; id: string; name: string }, more: object = {}) => ({
  subject,
  engine,
  holder: oskar,
  place,
  since: '2026-11-25T08:00:00Z',
  ...more,
});
const itself = held({ kind: 'engine', id: 'e1', name: 'H355-0401' });
const tray = (name: string, more: object = {}) => held({ kind: 'tray', id: `t${name}`, name }, more);
const told = (items: ReturnType<typeof held>[]) =>
  heldTogether(items, ({ since }) => [since]).map((group) => [group.itself, group.trays]);

test('an engine and the trays that came with it are one group', () => {
  expect(told([itself, tray('18'), tray('19')])).toEqual([[true, ['18', '19']]]);
});

test('what came at another time, lies elsewhere or with somebody else stands by itself', () => {
  expect(
    told([
      itself,
      tray('18', { since: '2026-11-25T09:00:00Z' }),
      tray('19', { place: null }),
      tray('20', { holder: bay }),
      tray('21', { engine: { ...engine, id: 'e2' } }),
      tray('22'),
    ]),
  ).toEqual([
    [true, ['22']],
    [false, ['18']],
    [false, ['19']],
    [false, ['20']],
    [false, ['21']],
  ]);
});
