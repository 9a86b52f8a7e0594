import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
let token = '';
beforeAll(async () => {
  await insertInstruments(shop.sql, shop.people.lead);
  ({ token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined }));
});

let serial = 0;
const newJob = async () => {
  serial += 1;
  return (await takeIn(shop, { serial: `I-${serial}` })).jobId;
};
const send = async (jobId: string, payload: string, type = 'text/csv') => {
  const reply = await shop.app.inject({
    method: 'POST',
    url: `/api/jobs/${jobId}/readings/import`,
    cookies: { [SESSION_COOKIE]: token },
    headers: { 'content-type': type, 'idempotency-key': crypto.randomUUID() },
    payload,
  });
  return { status: reply.statusCode, body: reply.json() };
};
const kept = async (jobId: string) =>
  (await shop.sql<{ n: number }[]>`select count(*)::int as n from reading where job_id = ${jobId}`)[0]?.n;

const bore = ['A-across', 'A-along', 'B-across', 'B-along', 'C-across', 'C-along'];
const values = ['88,062', '88,058', '88,055', '88,051', '88,050', '88,049'];

describe('a file of readings', () => {
  test('as a spreadsheet writes it, with semicolons, decimal commas, a byte order mark and its own column order', async () => {
    const jobId = await newJob();
    const rows = bore.map((position, index) => `${values[index]};Bore-ignored;${position};mm;BG-2`);
    const text = ['\uFEFFValue;Dimension;POSITION;Unit;Instrument;Round', ...rows]
      .map((row) => row.replace('Bore-ignored', 'bore'))
      .map((row, index) => (index === 0 ? row : `${row};As received`))
      .concat(';;;;;', '')
      .join('\r\n');
    const { status, body } = await send(jobId, text);
    expect(status).toBe(201);
    expect(body.readings).toHaveLength(6);
    expect(body.findings.map(({ dimension, verdict }: Record<string, string>) => [dimension, verdict])).toContainEqual([
      'bore',
      'past the limit',
    ]);
    expect(body.readings[0].text).toBe('88,062');
    expect(body.obligations.opened.length).toBeGreaterThan(0);
  });

  test('holds several dimensions, feeler blades and play felt by hand', async () => {
    const jobId = await newJob();
    const text = [
      'round,dimension,position,repeat,value,unit,instrument,part_temp_c,instrument_temp_c,go,no_go,reason',
      'as received,piston,1,1,87.960,mm,MI-3,22.5,21,,,',
      'as received,ring-gap-top,1,,,mm,FE-1,,,0.25+0.10,0.40,',
      'as received,big-end-play,1,,none,,,,,,,',
    ].join('\n');
    const { status, body } = await send(jobId, text);
    expect(status).toBe(201);
    expect(body.findings).toHaveLength(3);
    expect(body.readings[0]).toMatchObject({
      partTemperature: { value: '22.5', unit: 'degC' },
      instrumentTemperature: { value: '21.0', unit: 'degC' },
    });
  });

  test('with bad rows keeps none of them, and names row and column of each', async () => {
    const jobId = await newJob();
    const text = [
      'round,dimension,position,value,unit,instrument',
      'as received,piston,1,87.960,mm,MI-3',
      'as received,bore,A-across,88.004,N.m,BG-2',
      'some day,bore,A-along,88.004,mm,BG-2',
      'as received,bore,B-across,wide,mm,BG-2',
    ].join('\n');
    const first = await send(jobId, text);
    expect(first.status).toBe(422);
    expect(first.body.type).toBe('urn:crosshatch:problem:csv-row');
    expect(first.body.errors).toEqual([{ pointer: 'row 4, column round', detail: expect.any(String) }]);
    const second = await send(jobId, text.replace('some day', 'as received'));
    expect(second.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      'row 3, column unit',
      'row 5, column value',
    ]);
    expect(second.body.detail).toContain('Row 3, column unit');
    expect(await kept(jobId)).toBe(0);
  });

  test('with a value 25.4 times off is refused, and kept when its row gives a reason', async () => {
    const jobId = await newJob();
    const row = (reason: string) =>
      `round,dimension,position,value,unit,instrument,reason\nas received,bore,A-across,3.4646,mm,BG-2,${reason}\n`;
    const refused = await send(jobId, row(''));
    expect(refused.body.errors[0]).toMatchObject({ pointer: 'row 2, column value' });
    expect(refused.body.errors[0].detail).toContain('3.4646 in');
    expect((await send(jobId, row('a miniature'))).status).toBe(201);
  });

  test('that measures one place twice is refused', async () => {
    const jobId = await newJob();
    const row = 'as received,piston,1,87.960,mm,MI-3';
    const { status, body } = await send(jobId, `round,dimension,position,value,unit,instrument\n${row}\n${row}\n`);
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('row 3, column repeat');
  });

  test.each([
    ['is empty', ''],
    ['has an unknown column', 'round,dimension,position,colour\nas received,bore,A-across,red\n'],
    ['lacks a column', 'round,position,value\nas received,A-across,88\n'],
    ['has only a header', 'round,dimension,position,value\n'],
    ['has cells too many', 'round,dimension,position,value\nas received,bore,A-across,88,048\n'],
    ['has a quote left open', 'round,dimension,position,value\nas received,"bore,A-across,88\n'],
  ])('that %s is refused', async (_what, text) => {
    const jobId = await newJob();
    const { status } = await send(jobId, text);
    expect([400, 422]).toContain(status);
    expect(await kept(jobId)).toBe(0);
  });

  test('of more than 5000 rows, of more than 1 MB, or that is no CSV, is refused', async () => {
    const jobId = await newJob();
    const row = 'as received,piston,1,87.960,mm,MI-3\n';
    const header = 'round,dimension,position,value,unit,instrument\n';
    expect((await send(jobId, header + row.repeat(5001))).status).toBe(422);
    expect((await send(jobId, 'x'.repeat(1_100_000))).status).toBe(413);
    expect((await send(jobId, '{"round":"as received"}', 'application/json')).status).toBe(400);
    expect((await send(jobId, '<a/>', 'text/xml')).status).toBe(415);
  });

  test('can be had empty, to be filled in, and goes back in', async () => {
    const jobId = await newJob();
    const template = await shop.app.inject({
      url: `/api/jobs/${jobId}/readings/template.csv`,
      cookies: { [SESSION_COOKIE]: token },
    });
    expect(template.headers['content-type']).toBe('text/csv; charset=utf-8');
    const lines = template.body.trimEnd().split('\r\n');
    expect(lines).toHaveLength(1 + 6 + 1 + 1 + 1);
    const filled = lines
      .filter((line) => !/ring-gap|big-end/.test(line))
      .map((line) => line.replace(/(bore,[^,]+),1,,mm,[^,]*/, '$1,1,88.006,mm,BG-2'))
      .map((line) => line.replace(/(piston,1),1,,mm,[^,]*/, '$1,1,87.960,mm,MI-3'))
      .join('\r\n');
    const { status, body } = await send(jobId, filled);
    expect(status).toBe(201);
    expect(body.readings).toHaveLength(7);
  });
});
