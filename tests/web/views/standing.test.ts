import { describe, expect, test } from 'vitest';
import type { Floor, Wait } from '#contracts/floor.ts';
import { sectionCallouts } from '../../../web/src/views/engine/section-callouts.ts';
import { kindOf, shortened, waitLabels } from '../../../web/src/views/engine/wait-labels.ts';
import { bayNumber, inWalkingOrder, wallsOf } from '../../../web/src/views/floor/walls.ts';
import { en } from '../../../web/src/words/en/index.ts';
import { formatFor } from '../../../web/src/words/format.ts';

const words = en.engine;
const format = formatFor('en-GB', 'Europe/Oslo');
const today = '2026-11-25';
let ids = 0;
const id = (): string => {
  ids += 1;
  return `id-${ids}`;
};

const wait = (waitsFor: Wait['waitsFor'], more: Partial<Wait> = {}): Wait => ({
  waitsFor,
  since: '2026-11-23T08:00:00Z',
  dueOn: null,
  words: '',
  cause: { kind: 'demand', id: id() },
  endedBy: { kind: 'right', right: 'stores' },
  ...more,
});
const labels = (waits: readonly Wait[], more: Partial<Parameters<typeof waitLabels>[0]> = {}) =>
  waitLabels({ waits, opening: null, handovers: [], findings: [], today, ...more }, { format, words });

describe('what an engine waits for, as short labels', () => {
  test('parts with a date wait; without one, or late, they need a hand', () => {
    expect(kindOf(wait('parts', { dueOn: '2026-11-26' }), today)).toBe('dated');
    expect(kindOf(wait('parts', { dueOn: today }), today)).toBe('dated');
    expect(kindOf(wait('parts', { dueOn: '2026-11-24' }), today)).toBe('now');
    expect(kindOf(wait('parts'), today)).toBe('now');
  });

  test('what needs a hand comes before what is offered, promised, or somebody’s to say', () => {
    const handover = id();
    const told = labels([
      wait('yes', { endedBy: { kind: 'owner', id: id(), name: 'Ingrid Falk' } }),
      wait('outside', { dueOn: '2026-11-27', endedBy: { kind: 'vendor', id: id(), name: 'Saltmere Plating' } }),
      wait('person', {
        cause: { kind: 'handover', id: handover },
        endedBy: { kind: 'person', id: id(), name: 'Tomasz Rudd' },
      }),
      wait('decision', { words: 'A dowel is missing. Search for it.' }),
    ]);
    expect(told.map(({ kind }) => kind)).toEqual(['now', 'offered', 'dated', 'somebody']);
    expect(told[0]?.text).toBe('decision: A dowel is missing');
    expect(told[1]?.text).toBe('offered to Tomasz Rudd');
    expect(told[2]?.text).toContain('Saltmere Plating, due');
  });

  test('an uncovered engine says so, and since when', () => {
    const opening = {
      id: id(),
      openSince: '2026-11-25T06:00:00Z',
      depth: 'cover',
      covered: false,
      coveredOrNotSince: '2026-11-25T07:00:00Z',
    } as const;
    expect(labels([], { opening })).toEqual([
      { id: 'uncovered', kind: 'now', text: 'uncovered', spanFrom: '2026-11-25T07:00:00Z' },
    ]);
    expect(labels([], { opening: { ...opening, covered: true } })).toEqual([]);
  });

  test('several of one kind are one label that counts the others', () => {
    const told = labels([
      wait('parts', { words: '8 × seal', dueOn: '2026-11-27' }),
      wait('parts', { words: '1 × gasket', dueOn: '2026-11-28' }),
      wait('parts', { words: '1 × bearing' }),
    ]);
    expect(told.map(({ text }) => text)).toEqual([
      'parts: 1 × bearing, no date',
      expect.stringMatching(/^parts: 8 × seal, due .*, and 1 more$/),
    ]);
  });

  test('a decision on a finding is told by the finding, not by the obligation’s many words', () => {
    const obligation = id();
    const finding = { name: 'Bore, size', verdict: 'undecided', obligation: { id: obligation } };
    const told = labels([wait('decision', { words: 'long', cause: { kind: 'obligation', id: obligation } })], {
      findings: [finding] as unknown as Floor['pastOrUndecided'],
    });
    expect(told[0]?.text).toBe('decision: Bore, size undecided');
  });

  test('words are cut between words, and a decimal point ends no sentence', () => {
    expect(shortened('Bore 88.048 mm, near. Measure again.')).toBe('Bore 88.048 mm, near');
    const cut = shortened('one two three four five six seven eight nine ten eleven twelve');
    expect(cut.length).toBeLessThanOrEqual(50);
    expect(cut).toMatch(/^[a-z ]+ …$/);
  });
});

describe('the plan of the shop', () => {
  const bay = (name: string, column: number, row: number, width = 1, height = 1) => ({
    id: name,
    grid: { column, row, width, height },
  });
  const bays = [bay('rack', 3, 7, 3), bay('2', 4, 5, 1, 2), bay('1', 3, 5), bay('3', 5, 5), bay('4', 3, 6)];

  test('begins in its corner, wherever the shop counts from', () => {
    const walls = wallsOf(bays);
    expect([walls.columns, walls.rows]).toEqual([3, 3]);
    expect(walls.of.get('1')).toMatchObject({ column: 1, row: 1 });
    expect(walls.of.get('rack')).toMatchObject({ column: 1, row: 3, width: 3 });
  });

  test('has a door where two bays share a wall, and none onto empty floor', () => {
    const walls = wallsOf(bays);
    expect(walls.of.get('4')?.doorAbove).toBe(true);
    expect(walls.of.get('rack')?.doorAbove).toBe(true);
    expect(walls.of.get('1')?.doorAbove).toBe(false);
    expect(wallsOf([bay('1', 1, 1), bay('2', 2, 2)]).of.get('2')?.doorAbove).toBe(false);
  });

  test('is walked row by row from the left', () => {
    expect(inWalkingOrder(bays).map(({ id: name }) => name)).toEqual(['1', '2', '3', '4', 'rack']);
  });

  test('a bay is known by the figure at the end of its name', () => {
    expect(bayNumber('Bay 3')).toBe('3');
    expect(bayNumber('Wash corner')).toBeNull();
    expect(bayNumber('Bay3b')).toBeNull();
  });
});

describe('the lettering of an engine’s section', () => {
  const tray = (
    label: string,
    pieces: readonly [layer: 'cover' | 'head' | null, expected: number, off: number | null][],
  ) => ({
    id: label,
    label,
    name: label,
    alone: false,
    layer: null,
    emptiedAt: null,
    holder: null,
    place: { id: 'bay', name: 'Bay 2' },
    pieces: pieces.map(([layer, expected, off]) => ({
      id: id(),
      name: 'piece',
      layer,
      expected,
      off,
      back: off === null ? null : 0,
      here: off,
    })),
  });
  const opening = { depth: 'head', covered: true, coveredOrNotSince: '2026-11-23T08:00:00Z' } as const;
  const letter = (facts: Partial<Parameters<typeof sectionCallouts>[0]>) =>
    sectionCallouts({ cycle: 'four-stroke', opening, trays: [], ...facts }, { format, words });

  test('what is off is told with its tray and place, what is on as on', () => {
    const told = letter({ trays: [tray('18·1', [['cover', 5, 5]]), tray('18·2', [['head', 1, 1]])] });
    expect(told.find(({ part }) => part === 'cover')).toMatchObject({
      off: true,
      note: 'off · tray 18·1, 5 of 5, Bay 2',
    });
    expect(told.find(({ part }) => part === 'head')).toMatchObject({ off: true, note: 'off · tray 18·2, Bay 2' });
    expect(told.find(({ part }) => part === 'cylinder')).toMatchObject({ off: false, note: 'on' });
  });

  test('a tray that is to be counted blind tells no number', () => {
    const [cover] = letter({ trays: [tray('18·1', [['cover', 5, null]])] });
    expect(cover?.note).toBe('off · tray 18·1, Bay 2');
  });

  test('a two-stroke has no valve cover; a closed engine has no mouth', () => {
    expect(letter({ cycle: 'two-stroke' }).map(({ part }) => part)).toEqual(['head', 'cylinder', 'opening', 'case']);
    expect(letter({ opening: null }).map(({ part }) => part)).toEqual(['cover', 'head', 'cylinder', 'case']);
  });
});
