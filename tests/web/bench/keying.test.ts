import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FastenerSetStanding } from '#contracts/assembly.ts';
import type { SheetPosition } from '#contracts/specs.ts';
import type { Entry } from '../../../web/src/app/outbox.ts';
import { bladesTyped, isWhole, noBlades, saySide, sideText, tapBlade } from '../../../web/src/views/bench/blades.ts';
import { drawnValue, fillInOrder, type PlaceStanding, valuesIn } from '../../../web/src/views/bench/measuring.ts';
import { setNow, tapOn, wrenchesFor } from '../../../web/src/views/bench/pulling.ts';
import { inTurn } from '../../../web/src/views/bench/ring-placing.ts';
import { commandOf, keyPressOf } from '../../../web/src/views/bench/use-keys.ts';

const position = (code: string): SheetPosition => ({ code, label: code, level: null, axis: null, height: null });
const place = (code: string, read: boolean): PlaceStanding => ({
  position: position(code),
  taken: read
    ? [
        {
          repeat: 1,
          text: '1',
          unit: 'mm',
          value: 1,
          instrumentCode: 'MI-1',
          state: 'kept',
          readingId: code,
          entryKey: null,
          personId: 'p',
          at: '2026-11-25T10:00:00Z',
        },
      ]
    : [],
});

describe('values keyed in one go', () => {
  test('are parted by spaces; in inches a whole number and its fraction are one', () => {
    expect(valuesIn(' 88.04  88,03 ', 'mm')).toEqual(['88.04', '88,03']);
    expect(valuesIn('3 1/2 3 15/32', 'in')).toEqual(['3 1/2', '3 15/32']);
  });

  test('fill the asked place and then only the open ones; what is left over is told', () => {
    const places = [place('a', false), place('b', true), place('c', false)];
    const { filled, over } = fillInOrder(['1', '2', '3'], places[0] ?? place('a', false), places);
    expect(filled.map(({ place: at, value }) => [at.position.code, value])).toEqual([
      ['a', '1'],
      ['c', '2'],
    ]);
    expect(over).toEqual(['3']);
  });

  test('an inch is drawn where its millimetres are, text that is no number nowhere', () => {
    expect(drawnValue('3,5', 'in', 'mm')).toBeCloseTo(88.9, 9);
    expect(drawnValue('3 1/2', 'in', 'mm')).toBeNull();
    expect(drawnValue('', 'mm', 'mm')).toBeNull();
  });
});

test('a gauge’s keys are heard, a shortcut’s are not', () => {
  const plain = { ctrlKey: false, metaKey: false, altKey: false };
  expect(keyPressOf({ key: '8', ...plain })).toEqual({ type: 'text', text: '8' });
  expect(keyPressOf({ key: 'Enter', ...plain })).toEqual({ type: 'enter' });
  expect(keyPressOf({ key: 'a', ...plain })).toBeNull();
  expect(keyPressOf({ key: '0', ...plain, ctrlKey: true })).toBeNull();
});

test('what is not written with figures is said by keys that write none', () => {
  const plain = { ctrlKey: false, metaKey: false, altKey: false };
  expect(commandOf({ key: 'Enter', ...plain, shiftKey: true })).toBe('again');
  expect(keyPressOf({ key: 'Enter', ...plain, shiftKey: true })).toBeNull();
  expect(commandOf({ key: 'z', ...plain, ctrlKey: true })).toBe('undo');
  expect(commandOf({ key: 'Z', ...plain, metaKey: true })).toBe('undo');
  expect(commandOf({ key: 'z', ...plain })).toBeNull();
  expect(commandOf({ key: 'ArrowUp', ...plain, shiftKey: true })).toBeNull();
  expect(commandOf({ key: 'ArrowUp', ...plain })).toBe('place before');
});

describe('blades', () => {
  test('typed, two say a place, a dash is none, and more than two say places in order', () => {
    const texts = (values: readonly string[]) =>
      bladesTyped(noBlades, values).map(({ go, noGo }) => [sideText(go), sideText(noGo)]);
    expect(texts(['0.25+0.10', '0.40'])).toEqual([['0.25+0.10', '0.40']]);
    expect(bladesTyped(noBlades, ['-', '0.02'])).toMatchObject([{ go: null, noGo: ['0.02'] }]);
    expect(texts(['0.02', '0.03', '0.03', '0.04'])).toEqual([
      ['0.02', '0.03'],
      ['0.03', '0.04'],
    ]);
    expect(bladesTyped(noBlades, ['0.02', '0.03', '0.03']).map(isWhole)).toEqual([true, false]);
    expect(bladesTyped(tapBlade(noBlades, '0.30', false), ['0.35']).map(isWhole)).toEqual([true]);
  });

  test('the one that goes is said first, then the one that does not', () => {
    const first = tapBlade(noBlades, '0.35', false);
    expect(first).toMatchObject({ go: ['0.35'], asked: 'noGo' });
    expect(isWhole(first)).toBe(false);
    expect(isWhole(tapBlade(first, '0.40', false))).toBe(true);
  });

  test('laid together they are one side, and a second tap takes one out again', () => {
    const two = tapBlade(tapBlade(noBlades, '0.25', true), '0.10', true);
    expect(sideText(two.go)).toBe('0.25+0.10');
    expect(sideText(tapBlade(two, '0.25', true).go)).toBe('0.10');
  });

  test('no blade at all on both sides says nothing', () => {
    expect(isWhole(saySide(saySide(noBlades, null), null))).toBe(false);
  });
});

const stage = (ordinal: number, done: number[]) => ({
  ordinal,
  figure: { value: '20.0', unit: 'N.m' },
  done,
  missing: [1, 2, 3, 4].filter((number) => !done.includes(number)),
});
const head: FastenerSetStanding = {
  code: 'head',
  name: 'head bolts',
  thread: 'M10x1.25',
  propertyClass: '10.9',
  condition: 'oiled',
  reuse: 'reuse',
  torqueToYield: false,
  tool: '',
  source: '',
  orderIsMakers: true,
  renewals: [],
  required: true,
  complete: false,
  order: [1, 2, 3, 4],
  positions: [],
  stages: [stage(1, [1]), stage(2, [])],
  next: null,
  cautions: [],
  pulls: [],
};
const waiting = (fastener: number): Entry => ({
  key: `k${fastener}`,
  kind: 'pull',
  personId: 'p',
  person: 'Nadia Quill',
  jobId: 'j',
  path: '/jobs/j/torque-pulls',
  body: { set: 'head', fastener, stage: 1, value: { value: '20', unit: 'N.m' } },
  happenedAt: '2026-11-25T10:00:00Z',
  order: fastener,
  tried: false,
  undone: false,
  refusal: null,
});

describe('pulls', () => {
  test('one that waits to be sent counts: the next one follows it', () => {
    const now = setNow(head, [waiting(2)]);
    expect(now.next).toMatchObject({ fastener: 3, stage: { ordinal: 1 } });
    expect(now.afterNext).toBe(4);
  });

  test('a missed and a repeated position are caught', () => {
    const now = setNow(head, []);
    expect(tapOn(now, 2)).toEqual({ ok: true });
    expect(tapOn(now, 4)).toEqual({ ok: false, reason: 'first', next: 2 });
    expect(tapOn(now, 1)).toEqual({ ok: false, reason: 'already', stage: 1 });
    const complete = setNow({ ...head, stages: [stage(1, [1, 2, 3, 4])] }, []);
    expect(tapOn(complete, 1)).toEqual({ ok: false, reason: 'complete' });
  });

  test('an angle stage asks for no wrench', () => {
    expect(wrenchesFor([], { value: '90', unit: 'deg' }, '2026-11-25')).toBeNull();
    expect(wrenchesFor([], { value: '20', unit: 'N.m' }, '2026-11-25')).toEqual({ offered: [], take: undefined });
  });
});

test('a gap turned round and round stays within the turn', () => {
  fc.assert(
    fc.property(fc.integer({ min: -2000, max: 2000 }), (degrees) => {
      const angle = inTurn(degrees);
      expect(angle).toBeGreaterThanOrEqual(0);
      expect(angle).toBeLessThan(360);
      expect((((angle - degrees) % 360) + 360) % 360).toBe(0);
    }),
  );
});
