import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coverLacks } from '#domain/stock/cover.ts';

const lack = (id: string, short: number) => ({ id, jobId: `job of ${id}`, servedBy: ['part'], short });
const line = (id: string, open: number, promisedOn: string | null, jobId: string | null = null) => ({
  id,
  partId: 'part',
  jobId,
  open,
  promisedOn,
});

describe('which lines on order fill which shortages', () => {
  test('what was bought for a job is its own, even when its day is later', () => {
    const covers = coverLacks(
      [lack('first', 2), lack('second', 2)],
      [line('anybody', 2, '2026-12-01'), line('own', 2, '2026-12-09', 'job of second')],
    );
    expect(covers).toMatchObject([
      { from: [{ id: 'anybody', quantity: 2 }], uncovered: 0, completeOn: '2026-12-01' },
      { from: [{ id: 'own', quantity: 2 }], uncovered: 0, completeOn: '2026-12-09' },
    ]);
  });

  test('the earliest promise is filled first, from the earliest day; the rest is uncovered by count', () => {
    const covers = coverLacks(
      [lack('a', 3), lack('b', 3)],
      [line('later', 2, '2026-12-05'), line('sooner', 2, '2026-12-02')],
    );
    expect(covers[0]).toMatchObject({
      from: [
        { id: 'sooner', quantity: 2 },
        { id: 'later', quantity: 1 },
      ],
      uncovered: 0,
      completeOn: '2026-12-05',
    });
    expect(covers[1]).toMatchObject({ from: [{ id: 'later', quantity: 1 }], uncovered: 2, completeOn: null });
  });

  test('a line without a day covers, and gives no day', () => {
    expect(coverLacks([lack('a', 1)], [line('some day', 1, null)])).toMatchObject([{ uncovered: 0, completeOn: null }]);
  });

  test('no piece is given twice, and to another job only what its own leaves over', () => {
    const jobs = fc.constantFrom('job of 0', 'job of 1', 'job of 2');
    const coming = fc.array(
      fc.record({
        jobId: fc.option(jobs),
        open: fc.integer({ min: 0, max: 9 }),
        day: fc.option(fc.constantFrom('2026-12-01', '2026-12-02')),
      }),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 9 }), { maxLength: 3 }), coming, (shorts, lines) => {
        const lacks = shorts.map((short, at) => lack(String(at), short));
        const known = lines.map(({ jobId, open, day }, at) => line(`line ${at}`, open, day, jobId));
        const covers = coverLacks(lacks, known);
        for (const { id, open, jobId } of known) {
          const given = covers.flatMap(({ lackId, from }) =>
            from.filter((one) => one.id === id).map((one) => ({ lackId, ...one })),
          );
          expect(given.reduce((sum, { quantity }) => sum + quantity, 0)).toBeLessThanOrEqual(open);
          const others = given.some(({ lackId }) => jobId !== null && jobId !== `job of ${lackId}`);
          const own = covers.find(({ lackId }) => jobId === `job of ${lackId}`);
          // Another job has some of it: its own lacks nothing any more.
          if (others) expect(own?.uncovered ?? 0).toBe(0);
        }
        const counted = covers.map(({ from, uncovered }) => from.reduce((sum, one) => sum + one.quantity, uncovered));
        expect(counted).toEqual(shorts);
      }),
    );
  });
});
