import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { OpenVoices } from '#contracts/opening-rules.ts';
import { findNow } from '#features/openings/voice-queries.ts';
import { openBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const weekday = { Mon: 1, Tue: 2, Wed: 3, Thu: 4, Fri: 5, Sat: 6, Sun: 7 } as const;
type Ends = Partial<Record<keyof typeof weekday, string>>;
const working: Ends = { Mon: '17:00', Tue: '17:00', Wed: '17:00', Thu: '17:00', Fri: '17:00', Sat: '12:00' };

async function keepShiftEnds(ends: Ends): Promise<void> {
  const shiftEnds = Object.entries(ends).map(([day, endsAt]) => ({
    weekday: weekday[day as keyof typeof weekday],
    endsAt,
  }));
  const rule = { uncoveredMinutes: 99_999, coveredMinutes: 999_999, shiftEnds };
  expect((await shop.as.lead.post('/api/opening-rule', rule)).status).toBe(200);
}

/** The latest shift end as the database tells it with its clock standing at an instant, in a shop of some zone. */
async function lastShiftEnd(zone: string, now: string): Promise<string | null> {
  let told: string | null = null;
  const undone = new Error('undone');
  await shop.sql
    .begin(async (sql) => {
      await sql`update shop set zone = ${zone}`;
      await sql`create schema stopped`;
      await sql.unsafe(
        `create function stopped.clock_timestamp() returns timestamptz language sql as $$ select '${now}'::timestamptz $$`,
      );
      // Named before pg_catalog, its clock is the one that a statement finds.
      await sql`set local search_path = stopped, public, pg_catalog`;
      told = (await findNow(sql)).lastShiftEnd;
      throw undone;
    })
    .catch((error: unknown) => {
      if (error !== undone) throw error;
    });
  return told === null ? null : new Date(told).toISOString();
}

describe('the latest end of a shift', () => {
  // 25 November 2026 is a Wednesday.
  test.each([
    ['a minute before the end, yesterday’s', 'Europe/Oslo', '2026-11-25T15:59:00Z', '2026-11-24T16:00:00.000Z'],
    ['at the end, today’s', 'Europe/Oslo', '2026-11-25T16:00:00Z', '2026-11-25T16:00:00.000Z'],
    ['on Saturday, the earlier one of its own', 'Europe/Oslo', '2026-11-28T11:30:00Z', '2026-11-28T11:00:00.000Z'],
    ['on Sunday, Saturday’s', 'Europe/Oslo', '2026-11-29T20:00:00Z', '2026-11-28T11:00:00.000Z'],
    ['after midnight here, before it in UTC', 'Europe/Oslo', '2026-11-29T23:30:00Z', '2026-11-28T11:00:00.000Z'],
    ['fourteen hours ahead', 'Pacific/Kiritimati', '2026-11-25T03:30:00Z', '2026-11-25T03:00:00.000Z'],
    ['eleven hours behind', 'Pacific/Pago_Pago', '2026-11-26T03:59:00Z', '2026-11-25T04:00:00.000Z'],
    ['three quarters of an hour beside the hour', 'Asia/Kathmandu', '2026-11-25T11:15:00Z', '2026-11-25T11:15:00.000Z'],
  ])('%s', async (_name, zone, now, end) => {
    await keepShiftEnds(working);
    expect(await lastShiftEnd(zone, now)).toBe(end);
  });

  // Oslo goes from +1 to +2 on Sunday, 29 March 2026, and back on Sunday, 25 October.
  test.each([
    ['before the clocks go forward, told after it', '2026-03-30T14:59:00Z', '2026-03-28T11:00:00.000Z'],
    ['after the clocks went forward', '2026-03-30T15:00:00Z', '2026-03-30T15:00:00.000Z'],
    ['before the clocks go back, told after it', '2026-10-26T15:59:00Z', '2026-10-24T10:00:00.000Z'],
    ['after the clocks went back', '2026-10-26T16:00:00Z', '2026-10-26T16:00:00.000Z'],
  ])('%s', async (_name, now, end) => {
    await keepShiftEnds(working);
    expect(await lastShiftEnd('Europe/Oslo', now)).toBe(end);
  });

  test('of a shop with one shift a week, a week ago until it ends again', async () => {
    await keepShiftEnds({ Wed: '17:00' });
    expect(await lastShiftEnd('Europe/Oslo', '2026-11-25T15:59:00Z')).toBe('2026-11-18T16:00:00.000Z');
  });

  test('of a shop that keeps none is none', async () => {
    await keepShiftEnds({});
    expect(await lastShiftEnd('Europe/Oslo', '2026-11-25T16:00:00Z')).toBeNull();
  });
});

test('an engine that stood uncovered on no day of a shift’s end raises no voice; one that stood longer does, since then', async () => {
  const openedAgo = async (days: number) => {
    const { openingId } = await openBench(shop);
    await shop.sql`alter table opening disable trigger user`;
    await shop.sql`update opening set opened_at = opened_at - make_interval(days => ${days}) where id = ${openingId}`;
    await shop.sql`alter table opening enable trigger user`;
    return openingId;
  };
  const [short, long] = [await openedAgo(3), await openedAgo(8)];
  const [row] = await shop.sql<{ weekday: number; end: string }[]>`
    select extract(isodow from day)::int as weekday, (day + time '12:00') at time zone zone as end
    from (select zone, (clock_timestamp() at time zone zone)::date - 5 as day from shop) ago`;
  const day = (Object.keys(weekday) as (keyof typeof weekday)[]).find((each) => weekday[each] === row?.weekday);
  await keepShiftEnds({ [day ?? 'Mon']: '12:00' });
  const { body }: { body: OpenVoices } = await shop.as.technician.get('/api/openings/voices');
  const voicesOf = (id: string) => body.items.find(({ openingId }) => openingId === id)?.voices ?? [];
  expect(voicesOf(short)).toEqual([]);
  expect(voicesOf(long)).toMatchObject([{ kind: 'uncovered-at-shift-end' }]);
  expect(new Date(voicesOf(long)[0]?.since ?? 0).toISOString()).toBe(new Date(row?.end ?? 0).toISOString());
});
