import { afterAll, describe, expect, test } from 'vitest';
import { cloneDatabase } from '../../support/database.ts';

const { db, drop } = await cloneDatabase();
afterAll(drop);

describe('values on their way from the database', () => {
  test('an instant keeps its microseconds and is in UTC', async () => {
    const [row] = await db.sql`select ${'2026-11-25T14:00:00.123456+02:00'}::timestamptz as at`;
    expect(row?.at).toBe('2026-11-25T12:00:00.123456Z');
  });

  test('a Date is an instant too', async () => {
    const [row] = await db.sql`select ${new Date('2026-11-25T12:00:00.5Z')}::timestamptz as at`;
    expect(row?.at).toBe('2026-11-25T12:00:00.5Z');
  });

  test('a day is text, whatever the time zone of this process', async () => {
    const [row] = await db.sql`select ${'2026-11-25'}::date as day`;
    expect(row?.day).toBe('2026-11-25');
  });

  test('a whole number is a number, in arrays as well', async () => {
    const [row] = await db.sql`select 9007199254740991 as big, array[1, 9007199254740991]::int8[] as many`;
    expect(row).toEqual({ big: Number.MAX_SAFE_INTEGER, many: [1, Number.MAX_SAFE_INTEGER] });
  });

  test('a whole number that a number cannot hold is refused, in both directions', async () => {
    await expect(db.sql`select 9007199254740993`).rejects.toThrow('9007199254740993 is not a whole number');
    await expect(db.sql`select ${2 ** 53}::int8`).rejects.toThrow('9007199254740992 is not a whole number');
  });

  test('a decimal stays text', async () => {
    const [row] = await db.sql`select 1.50::numeric as money`;
    expect(row?.money).toBe('1.50');
  });
});

test('both clients see one database, and sessions run in UTC and compile no statement', async () => {
  const [bySql] =
    await db.sql`select current_database() as name, current_setting('TimeZone') as zone, current_setting('jit') as jit`;
  const byPrisma = await db.prisma
    .$queryRaw`select current_database()::text as name, current_setting('TimeZone') as zone, current_setting('jit') as jit`;
  expect(byPrisma).toEqual([{ ...bySql }]);
  expect(bySql).toMatchObject({ zone: 'UTC', jit: 'off' });
});
