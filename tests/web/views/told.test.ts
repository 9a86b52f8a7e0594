import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { dispositionKinds } from '#domain/obligations/disposition.ts';
import { kindsFor } from '../../../web/src/views/engine/decision-kinds.ts';
import { likelihoodInWords, stripReading, valueWithGuard } from '../../../web/src/views/engine/measured-words.ts';
import { toldBy } from '../../../web/src/views/engine/told.ts';
import { wearSentence } from '../../../web/src/views/engine/wear-sentence.ts';
import { en } from '../../../web/src/words/en/index.ts';
import { formatFor } from '../../../web/src/words/format.ts';

const words = en.engine;
const format = formatFor('en-GB', 'Europe/Oslo');

/** Every kind of event that a feature of the service tells about an engine: `noun.act` in its source. */
function kindsToldByTheService(): string[] {
  const features = path.join(import.meta.dirname, '../../../server/features');
  const files = readdirSync(features, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));
  const kinds = files.flatMap((file) => {
    const source = readFileSync(path.join(features, file), 'utf8');
    const alone = [...source.matchAll(/'([a-z]+(?:-[a-z]+)*\.[a-z]+(?:-[a-z]+)*)'/g)];
    return alone.flatMap(({ 1: kind = '', index }) => {
      const ofTheShop =
        source.slice(0, index).endsWith('act.event(') && !source.slice(index, index + 200).includes('engineId');
      return ofTheShop ? [] : [kind];
    });
  });
  const nouns = new Set(Object.keys(words.events).map((kind) => kind.split('.')[0]));
  return [...new Set(kinds)].filter((kind) => nouns.has(kind.split('.')[0]));
}

describe('what happened, in sentences', () => {
  test('the page has a sentence for every event the service tells of an engine', () => {
    const told = kindsToldByTheService();
    expect(told.length).toBeGreaterThan(40);
    expect(told.filter((kind) => words.events[kind] === undefined)).toEqual([]);
  });

  test('every sentence says something, also of an event with no facts', () => {
    for (const [kind, sentence] of Object.entries(words.events)) {
      const said = sentence(toldBy({}));
      expect(said, kind).toMatch(/\p{L}{2}/u);
      expect(said, kind).not.toMatch(/undefined|null|NaN/);
    }
  });

  test('facts are told: pieces with their counts, the tray, the reason', () => {
    const data = {
      pieces: [
        { name: 'dowel', count: 8 },
        { name: 'rag', count: 1 },
      ],
      tray: '18·2',
      reason: '',
    };
    expect(words.events['piece.counted']?.(toldBy(data))).toBe('Off: 8 × dowel, rag, into 18·2');
    expect(words.events['proof.failed']?.(toldBy({ proof: 'Leak-down', words: '22 %' }))).toBe(
      'Leak-down: failed, 22 %',
    );
  });

  test('readings are told by the names of their dimensions, with the verdict where there is one', () => {
    const dimensions = [{ dimension: 'bore', name: 'Bore, size' }];
    const findings = [{ ...dimensions[0], verdict: 'past the limit' }];
    const kept = words.events['readings.kept'];
    expect(kept?.(toldBy({ count: 1, dimensions, findings: [] }))).toBe('1 reading kept, Bore, size');
    expect(kept?.(toldBy({ count: 6, dimensions, findings }))).toBe('6 readings kept, Bore, size: past the limit');
    expect(words.events['reading.struck']?.(toldBy({ ...dimensions[0], text: '88.4', reason: 'slipped' }))).toBe(
      'Reading struck: Bore, size, 88.4, slipped',
    );
  });

  test('a closing over open reasons is not told as if every piece were accounted for', () => {
    const closed = words.events['opening.closed'];
    expect(closed?.(toldBy({ note: '', overridden: [], reason: '' }))).toBe('Closed, every piece accounted for');
    expect(closed?.(toldBy({ note: '', overridden: ['Ring, top: not placed.'], reason: 'goes as a core' }))).toBe(
      'Closed all the same: goes as a core, although Ring, top: not placed.',
    );
  });

  test('a decision is told in the words it was taken by', () => {
    expect(words.events['obligation.decided']?.(toldBy({ kind: 'reuse', reason: 'two gauges agree' }))).toBe(
      'Decided: use it as it is, two gauges agree',
    );
  });
});

describe('a worked-out value', () => {
  const point = { type: 'point', value: { value: '88.048', unit: 'mm' } } as const;
  test('is read with its guard band; a feeler’s interval and play felt as they are', () => {
    expect(valueWithGuard(point, '0.003', { format, words })).toBe('88.048 ± 0.003');
    const open = { type: 'interval', interval: { low: '0.60', high: null, unit: 'mm' } } as const;
    expect(valueWithGuard(open, '0.003', { format, words })).toBe('0.60 or more');
    expect(valueWithGuard({ type: 'felt', present: true }, '0', { format, words })).toBe('play felt');
  });

  test('has the decimal mark of the shop', () => {
    expect(valueWithGuard(point, '0.003', { format: formatFor('de-DE', 'Europe/Berlin'), words })).toBe(
      '88,048 ± 0,003',
    );
  });

  test('stands on the strip as a value or a bar, play felt not at all', () => {
    expect(stripReading(point, '0.003')).toEqual({ kind: 'value', value: 88.048, guard: 0.003 });
    expect(stripReading({ type: 'felt', present: true }, '0')).toBeNull();
  });

  test('tells how likely it is past only where that is in doubt', () => {
    expect(likelihoodInWords({ low: 0.14, high: 0.14 }, words)).toBe('14 % likely past');
    expect(likelihoodInWords({ low: 0.03, high: 0.4 }, words)).toBe('3 to 40 % likely past');
    expect(likelihoodInWords({ low: 0, high: 0.002 }, words)).toBeUndefined();
    expect(likelihoodInWords({ low: 0.999, high: 1 }, words)).toBeUndefined();
  });
});

describe('wear, in a sentence', () => {
  const mm = (value: string) => ({ value, unit: 'mm' });
  const point = { partHours: '60', hours: '60', value: mm('88.01'), guard: mm('0.003'), jobNumber: 1 };
  const limit = { side: 'upper', value: mm('88.050') } as const;
  const line = (estimate: string | null, earliest: string | null, latest: string | null) => ({
    perHundredHours: mm('0.0175'),
    band: [],
    hoursLeft: { estimate, earliest, latest },
  });
  const said = (of: ReturnType<typeof line> | null, points = [point, point, point]) =>
    wearSentence({ limit, line: of, points }, words);

  test('never a date from fewer than three readings', () => {
    expect(said(null, [point, point])).toBe('2 readings so far: a rate needs three.');
  });
  test('an interval, an earliest, reached, or not in sight', () => {
    expect(said(line('11', '6.4', '17.2'))).toContain('6 to 17 hours');
    expect(said(line('11', '6.4', null))).toContain('not before 6 hours');
    expect(said(line('11', '0', null))).toBe('The limit may be reached already.');
    expect(said(line(null, null, null))).toContain('not in sight');
  });
  test('without a limit there is nothing to wear towards', () => {
    expect(wearSentence({ limit: null, line: null, points: [point] }, words)).toContain('no limit');
  });
});

test('a missing piece is searched for, a finding never is', () => {
  expect(kindsFor('count', dispositionKinds)).toEqual(['replace', 'search', 'other']);
  expect(kindsFor('finding', dispositionKinds)).not.toContain('search');
});
