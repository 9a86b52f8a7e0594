import { afterAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addPart, demand, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk } = shop.as;
afterAll(shop.close);

const euros = (minor: string) => ({ minor, currency: 'EUR' });
const change = (id: string, body: object) => clerk.post(`/api/parts/${id}/change`, body);
const goesWith = async (id: string) =>
  (await clerk.get(`/api/parts/${id}`)).body.companions.map(
    ({ part, quantity }: { part: { number: string }; quantity: number }) => `${part.number}*${quantity}`,
  );

describe('what goes with a part, by hand', () => {
  test('is asked for with it, stays when it is left out, and is taken away by an empty list', async () => {
    const [circlip, pin] = [await addPart(sql, { number: 'GW-CL' }), await addPart(sql, { number: 'GW-PIN' })];
    const added = await clerk.post('/api/parts', {
      number: 'GW-P',
      name: 'Piston',
      core: euros('8000'),
      companions: [
        { partId: circlip.id, quantity: 2 },
        { partId: pin.id, quantity: 1 },
      ],
    });
    expect(added.status, JSON.stringify(added.body)).toBe(201);
    const { id } = added.body;
    expect((await clerk.get(`/api/parts/${id}`)).body.part.core).toEqual(euros('8000'));
    const { jobId } = await takeIn(shop, { serial: 'GW-1' });
    await demand(shop, jobId, [[id, 2]]);
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, notAsked: 4 });
    await change(id, { reorderPoint: 3 });
    expect(await goesWith(id)).toEqual(['GW-CL*2', 'GW-PIN*1']);
    await change(id, { companions: [{ partId: circlip.id, quantity: 4 }], core: euros('0') });
    expect(await goesWith(id)).toEqual(['GW-CL*4']);
    await change(id, { companions: [] });
    expect(await goesWith(id)).toEqual([]);
    expect((await clerk.get(`/api/parts/${id}`)).body.part.core).toEqual(euros('0'));
  });

  test('is refused at its place where it is unknown, the part itself, named twice or leads back to it', async () => {
    const [a, b, c] = [await addPart(sql), await addPart(sql), await addPart(sql)];
    expect((await change(a.id, { companions: [{ partId: b.id, quantity: 1 }] })).status).toBe(200);
    expect((await change(b.id, { companions: [{ partId: c.id, quantity: 1 }] })).status).toBe(200);
    const wrong: readonly (readonly [string, readonly string[], number, string])[] = [
      [a.id, [b.id, newId()], 404, '/companions/1/partId'],
      [a.id, [a.id], 422, '/companions/0/partId'],
      [a.id, [b.id, b.id], 422, '/companions/1/partId'],
      [c.id, [a.id], 422, '/companions/0/partId'],
    ];
    for (const [id, others, status, pointer] of wrong) {
      const refused = await change(id, {
        name: 'Not kept',
        companions: others.map((partId) => ({ partId, quantity: 1 })),
      });
      expect([refused.status, refused.body.errors?.[0]?.pointer]).toEqual([status, pointer]);
    }
    expect((await change(a.id, { core: euros('-1') })).body.errors[0].pointer).toBe('/core');
    expect(await sql`select from part where name = 'Not kept'`).toHaveLength(0);
    expect(await goesWith(a.id)).toEqual([`${b.number}*1`]);
  });

  test('of two who close a ring from both sides at once one is refused', async () => {
    const pairs = await Promise.all([1, 2, 3, 4].map(async () => [await addPart(sql), await addPart(sql)] as const));
    const answers = await Promise.all(
      pairs.flatMap(([one, other]) => [
        change(one.id, { companions: [{ partId: other.id, quantity: 1 }] }),
        change(other.id, { companions: [{ partId: one.id, quantity: 1 }] }),
      ]),
    );
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 200, 200, 200, 422, 422, 422, 422]);
    const [first] = pairs;
    const now =
      await sql`select part_id, companion_id from part_companion where part_id = any(${[first?.[0].id ?? '', first?.[1].id ?? '']})`;
    await expect(
      sql`insert into part_companion (part_id, companion_id, quantity) values (${now[0]?.companion_id}, ${now[0]?.part_id}, 1)`,
    ).rejects.toThrow(/go with itself/);
  });
});

describe('core charge and what goes with a part, in a file', () => {
  const bring = (text: string) => clerk.post('/api/parts/import', text);
  const file = async () => (await clerk.get('/api/parts.csv')).body as string;

  test('come in and go out alike, stay where a cell is empty, and are taken back with a dash', async () => {
    const text = 'number,name,core,goes_with\nGF-P,Piston,80.00,GF-CL*2; gf-pin\nGF-CL,Circlip,,\nGF-PIN,Pin,,\n';
    expect((await bring(text)).body).toEqual({ added: 3, changed: 0, unchanged: 0 });
    const [part] = await sql<
      { id: string; core: number }[]
    >`select id, core_minor as core from part where number = 'GF-P'`;
    expect(part?.core).toBe(8000);
    expect(await goesWith(part?.id ?? '')).toEqual(['GF-CL*2', 'GF-PIN*1']);
    const out = await file();
    expect(out).toContain('GF-CL*2; GF-PIN*1');
    expect((await bring(out)).body).toMatchObject({ added: 0, changed: 0 });
    expect(await file()).toBe(out);
    await bring('number,name,goes_with\nGF-P,Piston,\n');
    expect(await file()).toBe(out);
    expect((await bring('number,name,goes_with\nGF-P,Piston,-\nGF-CL,Circlip,GF-P\n')).body).toMatchObject({
      changed: 2,
    });
    expect(await goesWith(part?.id ?? '')).toEqual([]);
  });

  test('are refused by row and column, and nothing of the file is kept', async () => {
    await bring('number,name,goes_with\nGR-1,One,GR-2\nGR-2,Two,GR-3\nGR-3,Three,\n');
    const before = await file();
    const faults = async (rows: string) => {
      const { status, body } = await bring(`number,name,core,goes_with\n${rows}`);
      expect(status, JSON.stringify(body)).toBe(422);
      return body.errors.map(({ pointer }: { pointer: string }) => pointer);
    };
    expect(await faults('GR-3,Three,,GR-1*2\n')).toEqual(['row 2, column goes_with']);
    expect(await faults('GR-4,Four,half,\n')).toEqual(['row 2, column core']);
    expect(
      await faults(
        'GR-4,Four,,GR-4\nGR-5,Five,,NONE*2\nGR-6,Six,,GR-1*0\nGR-7,Seven,,GR-1; GR-1*2\nGR-8,Eight,,GR-1;;GR-2\n',
      ),
    ).toEqual([2, 3, 4, 5, 6].map((row) => `row ${row}, column goes_with`));
    expect(await file()).toBe(before);
  });
});
