import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import type { SheetDocument } from '#domain/spec-sheet/document.ts';
import { sheetAsCsv } from '#features/specs/sheet-csv.ts';
import { readSheetCsv } from '#features/specs/sheet-csv-reading.ts';
import { anySheet, emptySheet } from '../support/any-sheet.ts';
import { openShop } from '../support/shop.ts';

const example = sheetExample as SpecSheetDocument;

const readBack = (text: string, before: SheetDocument, keep: boolean): SheetDocument => {
  const read = readSheetCsv(text, { before, keep });
  if (!read.ok || read.faults.length > 0) throw new Error(JSON.stringify(read.faults));
  return read.document;
};

describe('all of a sheet as one file', () => {
  test('says the same when it comes back, whatever its texts and figures are', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(SpecSheetDocument.safeParse(sheet).error).toBeUndefined();
        expect(readBack(sheetAsCsv(sheet), emptySheet, false)).toEqual(sheet);
      }),
      { numRuns: 300 },
    );
  });

  test('brought in on itself changes nothing, whether it replaces or adds', () => {
    fc.assert(
      fc.property(anySheet, fc.boolean(), (sheet, keep) => {
        expect(readBack(sheetAsCsv(sheet), sheet, keep)).toEqual(sheet);
      }),
      { numRuns: 100 },
    );
  });

  test('in the place of another sheet leaves nothing of that but its places', () => {
    fc.assert(
      fc.property(anySheet, anySheet, (sheet, other) => {
        const { places: _, ...read } = readBack(sheetAsCsv(sheet), other, false);
        const { places: __, ...rest } = sheet;
        expect(read).toEqual(rest);
      }),
      { numRuns: 100 },
    );
  });

  test('takes no entry for the title of a table', () => {
    const proof = { code: 'table', name: 'rings', dimension: null, words: '', caution: '' };
    const sheet = { ...example, proofs: [proof] };
    expect(readBack(sheetAsCsv(sheet), emptySheet, false)).toEqual(sheet);
  });

  test('comes back from a spreadsheet that saves semicolons, quotes every cell and makes all rows as wide', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const rows = parse(sheetAsCsv(sheet), { bom: true, relax_column_count: true }) as unknown as string[][];
        const cells = Array.from({ length: 33 });
        const saved = rows.map((row) => cells.map((_, at) => `"${(row[at] ?? '').replaceAll('"', '""')}"`).join(';'));
        expect(readBack(saved.join('\n'), emptySheet, false)).toEqual(sheet);
      }),
      { numRuns: 60 },
    );
  });
});

const shop = await openShop();
afterAll(shop.close);
const { lead, technician } = shop.as;
const family = `/api/families/${shop.sheet.familyId}`;

beforeEach(async () => {
  const { body } = await lead.get(`${family}/spec-revisions`);
  const draft = body.items.find(({ publishedAt }: { publishedAt: string | null }) => publishedAt === null);
  if (draft !== undefined) await lead.remove(`/api/spec-revisions/${draft.id}`, { 'if-match': `"${draft.version}"` });
});
const drafted = async () => {
  const { body } = await lead.post(`${family}/spec-revisions`, { document: example });
  return { url: `/api/spec-revisions/${body.id}`, tag: { 'if-match': `"${body.version}"` } };
};
const sheetOf = async (url: string): Promise<SpecSheetDocument> => (await lead.get(`${url}/sheet.json`)).body;
const told = ({ body }: { body: { errors: { pointer: string; detail: string }[] } }) =>
  body.errors.map(({ pointer, detail }) => `${pointer}: ${detail}`);

describe('a table of a sheet', () => {
  test('typed alone adds a set of fasteners, in the units that its rows name', async () => {
    const { url, tag } = await drafted();
    const text = [
      'table;fastener sets;;;;',
      'set;name;thread;condition;reuse;page',
      'cover;Cover bolts;M6x1.0;dry;reuse;p. 30',
      ';;;;;',
      'table;fasteners;;;;',
      'set;order;x;y;unit;',
      'cover;2;40,0;-30,5;;',
      'cover;1;-1,5;1/2;in;',
      'table;stages',
      'set;torque;unit;angle',
      'cover;90;lbf.in;',
      'cover;;;45',
    ].join('\n');
    const { status, body } = await lead.patch(`${url}/sheet.csv`, text, tag);
    expect(status, JSON.stringify(body)).toBe(200);
    const sheet = await sheetOf(url);
    expect(sheet).toEqual({
      ...example,
      fasteners: [
        ...example.fasteners,
        {
          code: 'cover',
          name: 'Cover bolts',
          thread: 'M6x1.0',
          propertyClass: '',
          condition: 'dry',
          tool: '',
          reuse: 'reuse',
          orderIsMakers: true,
          source: '',
          page: 'p. 30',
          positions: [
            { x: { value: '-1.5', unit: 'in' }, y: { value: '1/2', unit: 'in' } },
            { x: { value: '40.0', unit: 'mm' }, y: { value: '-30.5', unit: 'mm' } },
          ],
          stages: [
            { torque: { value: '90', unit: 'lbf.in' }, angle: null },
            { torque: null, angle: { value: '45', unit: 'deg' } },
          ],
        },
      ],
    });
  });

  test('takes the place of what was there; what the file has no table for stays', async () => {
    const { url, tag } = await drafted();
    const text = [
      'table,rings',
      'ring,name,angle,part,pin,mark',
      'second,Second ring,300,,,B',
      'pegged,On its pin,,,210,',
      'rail,Oil rail,,rail,,',
      'table,ring zones',
      'from,to,reason',
      'table,sheet',
      'ring_separation,note',
      '120 deg,Rings from bulletin 9',
      'table,stages',
      'set,torque',
      'head,25',
    ].join('\r\n');
    const { status, body } = await lead.put(`${url}/sheet.csv`, text, tag);
    expect(status, JSON.stringify(body)).toBe(200);
    expect(await sheetOf(url)).toEqual({
      ...example,
      note: 'Rings from bulletin 9',
      ringSeparation: { value: '120', unit: 'deg' },
      rings: [
        {
          code: 'second',
          name: 'Second ring',
          angle: { value: '300', unit: 'deg' },
          part: 'compression',
          pin: null,
          mark: 'B',
          faces: 'crown',
        },
        {
          code: 'pegged',
          name: 'On its pin',
          angle: null,
          part: 'compression',
          pin: { value: '210', unit: 'deg' },
          mark: '',
          faces: 'crown',
        },
        { code: 'rail', name: 'Oil rail', angle: null, part: 'rail', pin: null, mark: '', faces: 'either' },
      ],
      ringZones: [],
      fasteners: example.fasteners.map((set) => ({
        ...set,
        stages: [{ torque: { value: '25', unit: 'N.m' }, angle: null }],
      })),
    });
  });

  test('with bad rows is kept not at all, and every fault is told by row and column', async () => {
    const { url, tag } = await drafted();
    const text = [
      'table,fasteners',
      'set,order,x,y,unit',
      'head,1,0,0,furlong',
      'head,1,ten,0,mm',
      'head,,0,0,',
      'sump,1,0,0,',
      '',
      'table,stages',
      'set,stage,torque,angle,unit',
      'head,1,20,90,N.m',
      'head,2,,400,',
      'table,valves',
      'valve,dimension,wanted,adjuster,shim_diameter,shim_low,shim_high,side',
      'intake-left,lash,0.13,shim under bucket,7.48,3.50,1.20,left',
      'table,rings',
      'ring,angle',
      'top,120',
      'top,240',
      'table,proofs',
      'proof,dimension',
      'warm,heat',
    ].join('\r\n');
    const reply = await lead.put(`${url}/sheet.csv`, text, tag);
    expect(reply.status).toBe(422);
    expect(told(reply)).toEqual([
      expect.stringContaining('row 3, column x: "furlong" is no unit known here'),
      expect.stringContaining('row 3, column y: "furlong" is no unit known here'),
      'row 4, column order: Row 3 has 1 already.',
      'row 5, column order: is empty, and other rows of the set say their place.',
      'row 6, column set: No row of the table "fastener sets" says what "sump" is.',
      'row 10, column torque: A stage is either a torque or an angle.',
      expect.stringContaining('row 11, column angle: 400 deg must be above'),
      'row 14, column side: "left" is none of intake, exhaust.',
      'row 18, column ring: Row 17 has said this already.',
      'row 21, column dimension: There is no dimension "heat" on this sheet.',
    ]);
    expect(await sheetOf(url)).toEqual(example);
  });

  test('that can be read but not go together names the cell', async () => {
    const { url, tag } = await drafted();
    const text = [
      'table,valves',
      'valve,dimension,wanted,adjuster,shim_diameter,shim_low,shim_high,unit',
      'intake-left,lash,0.13,shim under bucket,7.48,3.50,1.20 in,mm',
      'intake-right,lash-intake-left,0.13,screw,7.48,,,',
    ].join('\n');
    expect(told(await lead.put(`${url}/sheet.csv`, text, tag))).toEqual([
      'row 3, column dimension: There is no dimension "lash" on this sheet.',
      'row 4, column screw_pitch: A screw adjuster needs the pitch of its thread.',
      'row 4, column shim_diameter: A screw adjuster has no shim.',
    ]);
    const long = `table,proofs\nproof,words\nwarm,${'x'.repeat(501)}\n`;
    expect(told(await lead.put(`${url}/sheet.csv`, long, tag))).toEqual([
      'row 3, column words: is longer than 500 characters.',
    ]);
    const many = ['table,stages', 'set,torque', ...Array.from({ length: 11 }, () => 'head,20')].join('\n');
    expect(told(await lead.put(`${url}/sheet.csv`, many, tag))).toEqual([
      expect.stringContaining('/fasteners/0/stages: A sheet holds at most 10'),
    ]);
  });

  test('unknown, twice, without names of columns or of another family is refused', async () => {
    const { url, tag } = await drafted();
    const first = async (text: string) => told(await lead.put(`${url}/sheet.csv`, text, tag))[0];
    expect(await first('table,gaskets\ncode\nx\n')).toContain('row 1, column table: There is no table "gaskets".');
    expect(await first('table,rings\nring,angle\nx,1\ntable,rings\nring,angle\n')).toContain(
      'The table rings is there',
    );
    expect(await first('table,rings\n')).toContain('row 1, column : No column names follow the title.');
    expect(await first('table,rings\nring,colour\nx,red\n')).toContain('row 2, column colour: There is no column');
    expect(await first('table,sheet\nfamily\nT615\n')).toContain('row 3, column family: This is a sheet of "T615"');
    expect((await technician.put(`${url}/sheet.csv`, 'table,rings\nring,angle\nx,1\n', tag)).status).toBe(403);
  });
});
