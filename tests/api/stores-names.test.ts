import { readFileSync } from 'node:fs';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

const [family] = await sql<{ code: string }[]>`select code from family where id = ${shop.sheet.familyId}`;
const pointers = (body: { errors: { pointer: string }[] }) => body.errors.map(({ pointer }) => pointer);

describe('one name is one thing’s, in small and large letters alike', () => {
  test('of two who put up bin E-01 and e-01 at once, one does', async () => {
    const asked = ['R-01', 'r-01', 'R-01', 'r-01'].map((code) => clerk.post('/api/bins', { code }));
    const statuses = (await Promise.all(asked)).map(({ status }) => status);
    expect(statuses.toSorted()).toEqual([201, 409, 409, 409]);
    expect(await sql`select from bin where lower(code) = 'r-01'`).toHaveLength(1);
  });

  test('a code that another bin has is refused by the database itself', async () => {
    await sql`insert into bin (id, code, walk_order) values (${newId()}, 'Same-1', 1)`;
    await expect(sql`insert into bin (id, code, walk_order) values (${newId()}, 'sAME-1', 1)`).rejects.toThrow(
      'bin_code_small',
    );
  });

  test('of two files that bring one kit or one part at once, one is kept', async () => {
    const { number } = await addPart(sql);
    const kit = (name: string) => `family,kit,part,quantity\n${family?.code},${name},${number},1\n`;
    const kits = await Promise.all(['Rush', 'rush', 'RUSH'].map((name) => clerk.post('/api/kits/import', kit(name))));
    // One that comes after the other has ended finds its kit and changes nothing.
    for (const { status } of kits) expect([200, 201, 409]).toContain(status);
    expect(await sql`select from kit where lower(name) = 'rush'`).toHaveLength(1);
    const parts = ['RUSH-1', 'rush-1', 'Rush-1'].map((name) =>
      clerk.post('/api/parts/import', `number,name\n${name},Clip\n`),
    );
    for (const { status } of await Promise.all(parts)) expect([201, 409]).toContain(status);
    expect(await sql`select from part where lower(number) = 'rush-1'`).toHaveLength(1);
  });

  test('a kit has a name of at most 80 characters', async () => {
    const named = (name: string) =>
      sql`insert into kit (id, family_id, name) values (${newId()}, ${shop.sheet.familyId}, ${name})`;
    for (const name of ['', '   ', 'k'.repeat(81)]) await expect(named(name)).rejects.toThrow('kit_name_said');
    await named('k'.repeat(80));
  });

  test('doubles from before keep their things: the later ones get the next free name', async () => {
    const migration = 'prisma/migrations/20261127113000_codes_in_small_letters/migration.sql';
    const [end = ''] = readFileSync(migration, 'utf8').split('-- What a part is counted in');
    await sql
      .begin(async (tx) => {
        await tx`drop index bin_code_small, kit_name_small, part_number_small`;
        await tx`alter table kit drop constraint kit_name_said`;
        await tx`create index part_number_small on part (lower(number))`;
        const bins = ['Q-01', 'q-01', 'q-01-2'];
        for (const code of bins) await tx`insert into bin (id, code, walk_order) values (${newId()}, ${code}, 1)`;
        for (const name of ['Top', 'TOP', 'l'.repeat(90), 'L'.repeat(85), ' '])
          await tx`insert into kit (id, family_id, name) values (${newId()}, ${shop.sheet.familyId}, ${name})`;
        for (const number of ['q-9', 'Q-9'])
          await tx`insert into part (id, number, name) values (${newId()}, ${number}, 'Clip')`;
        await tx.unsafe(end);
        const codes = await tx<{ code: string }[]>`select code from bin where code ilike 'q-01%' order by id`;
        expect(codes.map(({ code }) => code)).toEqual(['Q-01', 'q-01-3', 'q-01-2']);
        const names = await tx<{ name: string }[]>`
          select name from kit where name ilike 'top%' or name ilike 'lll%' or name = 'Kit' order by id`;
        expect(names.map(({ name }) => name)).toEqual(['Top', 'TOP-2', 'l'.repeat(80), `${'L'.repeat(78)}-2`, 'Kit']);
        const numbers = await tx<{ number: string }[]>`select number from part where number ilike 'q-9%' order by id`;
        expect(numbers.map(({ number }) => number)).toEqual(['q-9', 'Q-9-2']);
        throw new Error('undone on purpose');
      })
      .catch((error: Error) => expect(error.message).toBe('undone on purpose'));
  });
});

describe('a file of parts', () => {
  test('cannot change what a part that has moved is counted in, nor whether by serial', async () => {
    const part = await addPart(sql, { number: 'MOVED-1' });
    await addPart(sql, { number: 'STILL-1' });
    await addLot(shop, { partId: part.id, quantity: 3, binId: (await addBin(sql)).id });
    const file = 'number,name,unit,by_serial\nSTILL-1,Oil,ml,yes\nmoved-1,Clip,ml,yes\n';
    for (const path of ['/api/parts/import/check', '/api/parts/import']) {
      const refused = await clerk.post(path, file);
      expect(refused.status).toBe(422);
      expect(pointers(refused.body)).toEqual(['row 3, column unit', 'row 3, column by_serial']);
      expect(refused.body.detail).toContain('MOVED-1 has moved, counted in piece: that stays.');
    }
    expect(await sql`select unit from part where number = 'STILL-1'`).toEqual([{ unit: 'piece' }]);
    const same = await clerk.post(
      '/api/parts/import',
      'number,name,unit,by_serial\nMOVED-1,Clip,piece,no\nSTILL-1,Oil,ml,\n',
    );
    expect(same.body).toEqual({ added: 0, changed: 2, unchanged: 0 });
    await expect(sql`update part set unit = 'g' where id = ${part.id}`).rejects.toThrow('has moved');
  });

  test('a unit that changes while the first pieces come in waits for them, and is refused', async () => {
    const part = await addPart(sql);
    const binId = (await addBin(sql)).id;
    let change: Promise<string> = Promise.resolve('');
    await sql.begin(async (tx) => {
      const lotId = newId();
      await tx`insert into stock_lot (id, part_id, bin_id) values (${lotId}, ${part.id}, ${binId})`;
      await tx`
        insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, moved_by_id)
        values (${newId()}, ${lotId}, 'receive', 2, 0, ${shop.people.clerk})`;
      change = sql`update part set unit = 'ml' where id = ${part.id}`.then(
        () => 'changed',
        (error: Error) => error.message,
      );
      await tx`select pg_sleep(0.2)`;
    });
    expect(await change).toContain('has moved');
  });

  test('counts what stands as it says already as unchanged', async () => {
    await clerk.post(
      '/api/parts/import',
      'number,name,price,superseded_by,alternatives\nUN-1,Ring,1.00,UN-2,\nUN-2,Ring,2.00,,UN-3: once bored\nUN-3,Ring,3.00,,\n',
    );
    const text = (await clerk.get('/api/parts.csv')).body as string;
    const [head = '', ...rows] = text.split('\r\n');
    const own = [head, ...rows.filter((row) => row.startsWith('UN-'))].join('\r\n');
    const stands = { rows: 3, added: 0, changed: 0, unchanged: 3 };
    expect((await clerk.post('/api/parts/import/check', own)).body).toEqual(stands);
    for (const [file, changed] of [
      ['number,name,old_stock\nUN-1,Ring,new only\nUN-2,Ring,\n', 1],
      ['number,name,alternatives\nUN-2,Ring,UN-3: once honed\nUN-1,Ring,\n', 1],
      ['number,name,price\nUN-1,Ring,1.00\nUN-2,Ring,2.50\n', 1],
      ['number,name,alternatives\nUN-3,Ring,\nUN-4,Ring,UN-3: once bored\n', 0],
    ] as const)
      expect((await clerk.post('/api/parts/import/check', file)).body).toMatchObject({ changed, unchanged: 1 });
  });
});
