import { readdir, readFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { OpenVoices } from '#contracts/opening-rules.ts';
import { kindsWhere } from '#domain/custody/engine-events.ts';
import { actOn } from '#platform/act.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { insertStrip, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let strip: WrittenProcedure;
beforeAll(async () => {
  shop = await openShop();
  strip = await insertStrip(shop.sql, shop.sheet.familyId);
});
afterAll(() => shop.close());

const rule = { uncoveredMinutes: 60, coveredMinutes: 600, shiftEnds: [] };
const setRule = (body: object, who: keyof Shop['as'] = 'lead') => shop.as[who].post('/api/opening-rule', body);
const look = ({ openingId }: TallyBench, body: object, who: keyof Shop['as'] = 'colleague') =>
  shop.as[who].post(`/api/openings/${openingId}/looks`, body);

/** Opened so many minutes ago: the clock of the rules is the database's. */
async function openedAgo(minutes: number): Promise<TallyBench> {
  const bench = await openBench(shop);
  await shop.sql`alter table opening disable trigger user`;
  await shop.sql`update opening set opened_at = opened_at - make_interval(mins => ${minutes}) where id = ${bench.openingId}`;
  await shop.sql`alter table opening enable trigger user`;
  return bench;
}

async function voicesOf({ openingId }: TallyBench): Promise<readonly string[]> {
  const { body }: { body: OpenVoices } = await shop.as.technician.get('/api/openings/voices');
  return body.items.find((item) => item.openingId === openingId)?.voices.map(({ kind }) => kind) ?? [];
}

describe('open engines that raise their voice', () => {
  test('uncovered for longer than the shop allows, until somebody looks and covers it; who saw it last is told', async () => {
    expect((await setRule(rule)).status).toBe(200);
    const bench = await openedAgo(61);
    expect(await voicesOf(bench)).toEqual(['uncovered-too-long']);
    expect((await look(bench, { covered: true, words: 'cloth tight' })).status).toBe(200);
    expect(await voicesOf(bench)).toEqual([]);
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}`);
    expect(body).toMatchObject({ covered: true, seen: { by: { id: shop.people.colleague } } });
  });

  test('open for longer than the shop allows, covered or not', async () => {
    const bench = await openedAgo(601);
    await look(bench, { covered: true });
    expect(await voicesOf(bench)).toEqual(['open-too-long']);
    expect(await voicesOf(await openedAgo(10))).toEqual([]);
  });

  test('something may be inside: that comes first', async () => {
    const bench = await openedAgo(61);
    const { body } = await bench.off([{ byHand: { name: 'dowel', expected: 8 }, count: 7 }]);
    const lost = { pieces: [{ pieceId: body.pieces[0].id, count: 1 }], reason: 'gone' };
    await bench.act('possibly-inside', lost);
    expect(await voicesOf(bench)).toEqual(['may-be-inside', 'uncovered-too-long']);
  });

  test('uncovered at the end of the shift and not covered since', async () => {
    const bench = await openedAgo(60 * 24 * 8);
    const weekdays = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({ weekday, endsAt: '00:00' }));
    expect((await setRule({ uncoveredMinutes: 99_999, coveredMinutes: 999_999, shiftEnds: weekdays })).status).toBe(
      200,
    );
    expect(await voicesOf(bench)).toEqual(['uncovered-at-shift-end']);
    await look(bench, { covered: true });
    expect(await voicesOf(bench)).toEqual([]);
    await setRule(rule);
  });

  test('a look is by somebody with the bench, at an engine that is open', async () => {
    const bench = await openBench(shop);
    expect((await look(bench, { covered: true }, 'writer')).status).toBe(403);
    expect((await look(bench, {})).status).toBe(400);
    expect((await look({ ...bench, openingId: crypto.randomUUID() }, { covered: true })).status).toBe(404);
    await bench.as.post(`/api/openings/${bench.openingId}/close`, {});
    expect((await look(bench, { covered: true })).status).toBe(409);
  });
});

describe('who saw an open engine last', () => {
  const did = async (who: 'technician' | 'colleague', { engineId, jobId }: TallyBench, kind: string, data = {}) => {
    const session = { sessionId: '', terminalId: undefined };
    const actor = { id: shop.people[who], name: who, initials: 'XX', roles: [], ...session };
    await shop.sql.begin(async (sql) => actOn(sql, actor).event(kind, { engineId, jobId, data }));
  };
  const seen = async ({ openingId }: TallyBench) =>
    (await shop.as.technician.get(`/api/openings/${openingId}`)).body.seen.by.id;

  test('whoever did something at the engine itself, by each of its names', async () => {
    const bench = await openBench(shop);
    for (const kind of kindsWhere('at the engine')) {
      await did('technician', bench, 'opening.looked');
      await did('colleague', bench, kind);
      expect([kind, await seen(bench)]).toEqual([kind, shop.people.colleague]);
    }
  });

  test('whoever gave or took it, but not who took trays alone', async () => {
    const bench = await openBench(shop);
    for (const kind of kindsWhere('where the engine went')) {
      const handed = kind.startsWith('handover');
      await did('technician', bench, 'opening.looked');
      await did('colleague', bench, kind, handed ? { engine: false, trays: ['1·1'] } : { what: ['tray 1·1'] });
      expect([kind, await seen(bench)]).toEqual([kind, shop.people.technician]);
      await did('colleague', bench, kind, handed ? { engine: true } : { what: ['the engine'] });
      expect([kind, await seen(bench)]).toEqual([kind, shop.people.colleague]);
    }
    await did('technician', bench, 'opening.looked');
    await did('colleague', bench, 'outside.sent', { what: 'the engine' });
    expect(await seen(bench)).toBe(shop.people.colleague);
  });

  test('not who did something elsewhere: a decline, a correction, parts', async () => {
    const bench = await openBench(shop);
    for (const kind of kindsWhere('elsewhere'))
      await did('colleague', bench, kind, { what: ['the engine'], engine: true });
    expect(await seen(bench)).toBe(shop.people.technician);
  });

  test('a procedure begun and a bay left count, a decline does not', async () => {
    const bench = await openBench(shop);
    await shop.as.colleague.post(`/api/jobs/${bench.jobId}/procedure-runs`, { versionId: strip.versionId });
    expect(await seen(bench)).toBe(shop.people.colleague);
    const left = await bench.as.post(`/api/engines/${bench.engineId}/leave`, { bayId: shop.bays.rack, trayIds: [] });
    expect([left.status, await seen(bench)]).toEqual([200, shop.people.technician]);
    await bench.as.post(`/api/engines/${bench.engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const offer = await bench.as.post(`/api/jobs/${bench.jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [],
    });
    await shop.as.colleague.post(`/api/handovers/${offer.body.id}/decline`, { reason: 'Not on my bench today' });
    expect(await seen(bench)).toBe(shop.people.technician);
  });

  test('every one of these names is one that a service tells', async () => {
    const folder = new URL('../../server/features/', import.meta.url);
    const files = (await readdir(folder, { recursive: true })).filter((file) => file.endsWith('.ts'));
    const source = (await Promise.all(files.map((file) => readFile(new URL(file, folder), 'utf8')))).join('\n');
    const names = [...kindsWhere('at the engine'), ...kindsWhere('where the engine went')];
    expect(names.filter((name) => !source.includes(`'${name}'`))).toEqual([]);
  });
});

describe('the limits on open engines', () => {
  test('are set by a lead alone, each with its history', async () => {
    expect((await setRule(rule, 'technician')).status).toBe(403);
    expect((await setRule({ ...rule, uncoveredMinutes: 30, note: 'dust season' })).status).toBe(200);
    const { body } = await shop.as.technician.get('/api/opening-rule');
    expect(body).toMatchObject({ uncoveredMinutes: 30, set: { by: { id: shop.people.lead }, note: 'dust season' } });
    expect(body.history.length).toBeGreaterThan(1);
  });

  test.each([
    [{ ...rule, uncoveredMinutes: 601 }, 422],
    [{ ...rule, uncoveredMinutes: 4 }, 400],
    [{ ...rule, uncoveredMinutes: -60 }, 400],
    [{ ...rule, shiftEnds: [{ weekday: 8, endsAt: '17:00' }] }, 400],
    [{ ...rule, shiftEnds: [{ weekday: 1, endsAt: '25:00' }] }, 400],
    [
      {
        ...rule,
        shiftEnds: [
          { weekday: 1, endsAt: '12:00' },
          { weekday: 1, endsAt: '17:00' },
        ],
      },
      422,
    ],
  ])('%o is refused', async (body, status) => {
    expect((await setRule(body)).status).toBe(status);
  });

  test('two leads who set them at once: both stand in the history, one holds', async () => {
    const answers = await Promise.all([setRule({ ...rule, note: 'one' }), setRule({ ...rule, note: 'other' })]);
    expect(answers.map(({ status }) => status)).toEqual([200, 200]);
    const { body } = await shop.as.lead.get('/api/opening-rule');
    expect(
      body.history
        .slice(0, 2)
        .map(({ note }: { note: string }) => note)
        .sort(),
    ).toEqual(['one', 'other']);
  });
});
