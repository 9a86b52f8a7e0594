import { describe, expect, it } from 'vitest';
import { type OpenFacts, type OpenLimits, openVoices } from '#domain/tally/open-voices.ts';

const minute = 60_000;
const at = (minutes: number) => minutes * minute;
const facts: OpenFacts = { openedAt: 0, covered: false, coveredOrNotSince: 0, mayBeInsideSince: null };
const limits: OpenLimits = { uncoveredMinutes: 60, coveredMinutes: 600, lastShiftEnd: null };
const kinds = (of: Partial<OpenFacts>, now: number, within: Partial<OpenLimits> = {}) =>
  openVoices({ ...facts, ...of }, { ...limits, ...within }, at(now)).map(({ kind }) => kind);

describe('the voice of an open engine', () => {
  it('is silent up to the limit, and raised once it is passed, since then', () => {
    expect(kinds({}, 60)).toEqual([]);
    expect(openVoices(facts, limits, at(60) + 1)).toEqual([{ kind: 'uncovered-too-long', since: at(60) }]);
  });

  it('is silent of a covered engine until it has been open too long at all', () => {
    const covered = { covered: true, coveredOrNotSince: at(10) };
    expect(kinds(covered, 600)).toEqual([]);
    expect(kinds(covered, 601)).toEqual(['open-too-long']);
  });

  it('counts how long it is uncovered from when it was last uncovered', () => {
    expect(kinds({ coveredOrNotSince: at(100) }, 150)).toEqual([]);
    expect(kinds({ coveredOrNotSince: at(100) }, 161)).toEqual(['uncovered-too-long']);
  });

  it('is raised at the end of the shift for what stood uncovered then, and not for what was uncovered after it', () => {
    const shift = { uncoveredMinutes: 1000, coveredMinutes: 2000, lastShiftEnd: at(30) };
    expect(kinds({}, 30, shift)).toEqual(['uncovered-at-shift-end']);
    expect(kinds({ covered: true, coveredOrNotSince: at(29) }, 31, shift)).toEqual([]);
    expect(kinds({ coveredOrNotSince: at(31) }, 40, shift)).toEqual([]);
    expect(kinds({}, 29, shift)).toEqual([]);
  });

  it('says the worst first: what may be inside before everything else', () => {
    expect(kinds({ mayBeInsideSince: at(5) }, 700, { lastShiftEnd: at(30) })).toEqual([
      'may-be-inside',
      'uncovered-at-shift-end',
      'uncovered-too-long',
      'open-too-long',
    ]);
    expect(kinds({ mayBeInsideSince: at(5), covered: true }, 6)).toEqual(['may-be-inside']);
  });
});
