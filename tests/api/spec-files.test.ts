import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { lead, technician } = shop.as;
const family = `/api/families/${shop.sheet.familyId}`;
const example = sheetExample as SpecSheetDocument;

beforeEach(async () => {
  const { body } = await lead.get(`${family}/spec-revisions`);
  const draft = body.items.find(({ publishedAt }: { publishedAt: string | null }) => publishedAt === null);
  if (draft !== undefined) await lead.remove(`/api/spec-revisions/${draft.id}`, { 'if-match': `"${draft.version}"` });
});

const drafted = async (begin: object) => {
  const { status, body } = await lead.post(`${family}/spec-revisions`, begin);
  expect(status, JSON.stringify(body)).toBe(201);
  return { url: `/api/spec-revisions/${body.id}`, tag: { 'if-match': `"${body.version}"` } };
};
const sheetOf = async (url: string): Promise<SpecSheetDocument> => (await lead.get(`${url}/sheet.json`)).body;
const pointersOf = (body: { errors: { pointer: string }[] }) => body.errors.map(({ pointer }) => pointer);

describe('a spec sheet as a file for a spreadsheet', () => {
  test('goes back in as it came out', async () => {
    const { url, tag } = await drafted({ document: example });
    const file = await technician.get(`${url}/sheet.csv`);
    expect(file.headers['content-type']).toContain('text/csv');
    expect(file.headers['content-disposition']).toBe('attachment; filename="spec-sheet-H355-2.csv"');
    const { status, body } = await lead.put(`${url}/sheet.csv`, file.body, tag);
    expect(status, JSON.stringify(body)).toBe(200);
    expect(await sheetOf(url)).toEqual(example);
  });

  test('goes back in whatever the order of its rows, but for the order of its entries', async () => {
    const { url, tag } = await drafted({ document: example });
    const file = String((await technician.get(`${url}/sheet.csv`)).body);
    const tables = file.trimEnd().split('\r\n\r\n');
    const shuffled = tables.map((table) => {
      const [first = '', ...rows] = table.split('\r\n');
      const titled = first.startsWith('table,');
      const [names = '', ...others] = titled ? rows : [first, ...rows];
      return [titled ? first : 'table,dimensions', names, ...others.toReversed()].join('\r\n');
    });
    const { status, body } = await lead.put(`${url}/sheet.csv`, shuffled.toReversed().join('\r\n'), tag);
    expect(status, JSON.stringify(body)).toBe(200);
    expect((await sheetOf(url)).fasteners).toEqual(example.fasteners);
    const byCode = (of: readonly { code: string }[]) => of.toSorted((a, b) => a.code.localeCompare(b.code));
    const plain = (sheet: SpecSheetDocument) =>
      byCode(sheet.dimensions.map((one) => ({ ...one, positions: byCode(one.positions) })));
    expect(plain(await sheetOf(url))).toEqual(plain(example));
  });

  test('keeps a size class that a spreadsheet would take for a number', async () => {
    const { url, tag } = await drafted({ copyOf: shop.sheet.revisionId });
    const file = String((await technician.get(`${url}/sheet.csv`)).body);
    expect(file).toContain("'+0.25");
    await lead.put(`${url}/sheet.csv`, file, tag);
    expect((await sheetOf(url)).dimensions[0]?.limits.map(({ sizeClass }) => sizeClass)).toEqual(['standard', '+0.25']);
  });

  test('may be a few typed rows that are added to what is there, with semicolons and decimal commas', async () => {
    const { url, tag } = await drafted({ document: example });
    const text = [
      'Dimension;What;Value;Unit;Name;Place;Method;Position;Label;Source;Page;Size class',
      ';place;;;Oil pump;oil-pump;;;;;;',
      'pump-tip;dimension;;mm;Oil pump, tip clearance;oil-pump;interval;;;workshop manual;p. 33;',
      'pump-tip;position;;;;;;at;rotor tips in line;;;',
      'pump-tip;Standard high;0,15;;;;;;;;;',
      'pump-tip;service high;0,20;;;;;;;;p. 34;',
      'bore;service high;3,4660;in;;;;;;;p. 12;',
    ].join('\r\n');
    const { status, body } = await lead.patch(`${url}/sheet.csv`, text, tag);
    expect(status, JSON.stringify(body)).toBe(200);
    const sheet = await sheetOf(url);
    expect(sheet.dimensions.map(({ code }) => code)).toEqual([
      ...example.dimensions.map(({ code }) => code),
      'pump-tip',
    ]);
    expect(sheet.dimensions.at(-1)).toMatchObject({
      kind: 'length',
      decimals: 2,
      source: 'workshop manual',
      limits: [
        {
          sizeClass: 'standard',
          standard: { low: null, high: { value: '0.15', unit: 'mm' } },
          service: { low: null, high: { value: '0.20', unit: 'mm', page: 'p. 34' } },
        },
      ],
    });
    expect(sheet.dimensions[0]?.limits[0]?.service.high).toEqual({ value: '3.4660', unit: 'in', page: 'p. 12' });
    expect(sheet.valves).toEqual(example.valves);
  });

  test('with bad rows is kept not at all, and every fault is told by row and column', async () => {
    const { url, tag } = await drafted({ document: example });
    const text = [
      'dimension,what,value,unit,place,method,decimals,size_class',
      'rotor,dimension,,mm,gearbox,interval,2,',
      'rotor,standard low,0.30,,,,,',
      'rotor,standard high,0.20,,,,,',
      'stator,standard high,1,,,,,',
      'shim,dimension,,furlong,clutch,guess,many,',
      'rotor,service high,,,,,,',
      'rotor,standard low,0.31,,,,,',
      'rotor,limit,1,,,,,',
    ].join('\n');
    const { status, body } = await lead.patch(`${url}/sheet.csv`, text, tag);
    expect(status).toBe(422);
    expect(body.type).toContain('csv-row');
    expect(pointersOf(body)).toEqual([
      'row 2, column place',
      'row 2, column what',
      'row 3, column value',
      'row 5, column dimension',
      'row 6, column decimals',
      'row 6, column method',
      'row 7, column value',
      'row 8, column what',
      'row 9, column what',
    ]);
    expect(await sheetOf(url)).toEqual(example);
  });

  test('whose rows can be read but not go together names them too', async () => {
    const { url, tag } = await drafted({ document: example });
    const text = [
      'dimension,what,value,unit,place,method,minuend,subtrahend',
      'rotor,dimension,,mm,gearbox,difference,bore,stator',
      'rotor,standard low,0.30,,,,,',
      'rotor,standard high,0.20,,,,,',
      'free,dimension,,furlong,clutch,single,,',
      'free,position,,,,,,',
    ].join('\n');
    expect(pointersOf((await lead.patch(`${url}/sheet.csv`, text, tag)).body)).toEqual([
      'row 2, column place',
      'row 2, column subtrahend',
      'row 3, column value',
      'row 5, column unit',
      'row 6, column position',
    ]);
    const mended = text.replace('free,position,,,,,,', 'free,nominal,many,mm,,,,');
    expect(pointersOf((await lead.patch(`${url}/sheet.csv`, mended, tag)).body).toSorted()).toEqual([
      'row 2, column place',
      'row 2, column subtrahend',
      'row 3, column value',
      'row 5, column unit',
      'row 5, column what',
      'row 6, column value',
    ]);
  });

  test('that leaves out what the rest of the sheet needs is refused', async () => {
    const { url, tag } = await drafted({ document: example });
    const text = 'dimension,what,unit,place,method\nfree,dimension,mm,clutch,single\nfree,nominal,,,\n';
    expect((await lead.put(`${url}/sheet.csv`, text, tag)).status).toBe(422);
    const alone = 'dimension,what,unit,place,method,position\nfree,dimension,mm,clutch,single,\nfree,position,,,,at\n';
    const { status, body } = await lead.put(`${url}/sheet.csv`, alone, tag);
    expect(status).toBe(422);
    expect(pointersOf(body)).toEqual(['/valves/0/dimension']);
  });

  test('is a lead’s to bring in, into the draft that was read', async () => {
    const { url, tag } = await drafted({ document: example });
    const text = 'dimension,what,value\nbore,service high,88.06\n';
    expect((await technician.patch(`${url}/sheet.csv`, text, tag)).status).toBe(403);
    expect((await lead.patch(`${url}/sheet.csv`, text)).status).toBe(428);
    expect((await lead.patch(`${url}/sheet.csv`, text, { 'if-match': '"1"' })).status).toBe(412);
    expect((await lead.patch(`${url}/sheet.csv`, {}, tag)).status).toBe(400);
    const published = await lead.patch(`/api/spec-revisions/${shop.sheet.revisionId}/sheet.csv`, text, {
      'if-match': '"1"',
    });
    expect(published.status).toBe(409);
  });
});

describe('a dimension that only a spec sheet knows', () => {
  test('is measured, judged and printed, from keying to build sheet', async () => {
    await insertInstruments(shop.sql, shop.people.lead);
    await shop.sql`
      insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe,
                              repeatability, calibration_due_on)
      values (gen_random_uuid(), 'CA-1', 'Caliper', 'caliper', 'length', 'in', 4, 0, 150000000, 12700, 20000, 5000, '2099-01-01')`;
    await shop.sql`
      insert into instrument_check (id, instrument_id, zero_error, master, checked_by_id)
      select gen_random_uuid(), id, 0, 'jaws closed', ${shop.people.lead} from instrument where code = 'CA-1'`;
    const { url, tag } = await drafted({ copyOf: shop.sheet.revisionId });
    const text = [
      'dimension,what,value,unit,name,place,method,position,instrument,inside,source,page',
      ',place,,,Oil pump,oil-pump,,,,,,',
      ',place,,,Clutch,clutch,,,,,,',
      'pump-tip,dimension,,mm,"Oil pump, tip clearance",oil-pump,interval,,feeler set,,invented,p. 33',
      'pump-tip,position,,,,,,tips in line,,,,',
      'pump-tip,standard high,0.15,,,,,,,,,',
      'pump-tip,service high,0.20,,,,,,,,,',
      'clutch-spring,dimension,,in,"Clutch spring, free length",clutch,single,,caliper,no,invented,p. 41',
      'clutch-spring,position,,,,,,at,,,,',
      'clutch-spring,service low,1.580,,,,,,,,,p. 42',
    ].join('\r\n');
    const kept = await lead.patch(`${url}/sheet.csv`, text, tag);
    expect(kept.status, JSON.stringify(kept.body)).toBe(200);
    const published = await lead.post(`${url}/publish`, undefined, { 'if-match': String(kept.headers.etag) });
    expect(published.status, JSON.stringify(published.body)).toBe(200);

    const { jobId } = await takeIn(shop, { serial: 'S-1' });
    const bench = await technician.get(`/api/jobs/${jobId}/bench`);
    expect(bench.body.dimensions.map(({ code }: { code: string }) => code)).toEqual(
      expect.arrayContaining(['pump-tip', 'clutch-spring']),
    );
    const key = (dimension: string, reading: object) =>
      technician.post(`/api/jobs/${jobId}/readings`, {
        round: 'as received',
        dimension,
        readings: [{ repeat: 1, ...reading }],
      });
    const tip = await key('pump-tip', {
      position: 'tips in line',
      instrumentCode: 'FE-1',
      interval: { go: '0.10', noGo: '0.15' },
    });
    expect(tip.status, JSON.stringify(tip.body)).toBe(201);
    expect(tip.body.findings).toMatchObject([{ dimension: 'pump-tip', verdict: 'within service limit' }]);
    const spring = await key('clutch-spring', { position: 'at', text: '1.5740', unit: 'in', instrumentCode: 'CA-1' });
    expect(spring.status, JSON.stringify(spring.body)).toBe(201);
    expect(spring.body.findings).toMatchObject([{ dimension: 'clutch-spring', verdict: 'past the limit' }]);
    expect(spring.body.obligations.opened).toHaveLength(1);

    const { body: sheet } = await technician.get(`/api/jobs/${jobId}/sheet`);
    expect(sheet.revision.number).toBe(2);
    expect(sheet.findings).toMatchObject([
      { dimension: 'pump-tip', name: 'Oil pump, tip clearance', unit: 'mm', verdict: 'within service limit' },
      { dimension: 'clutch-spring', unit: 'in', verdict: 'past the limit', figure: { serviceLow: 1.58 } },
    ]);
    expect(sheet.decisions[0].obligation).toContain('Clutch spring, free length');
  });
});
