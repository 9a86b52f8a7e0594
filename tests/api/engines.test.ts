import { afterAll, describe, expect, test } from 'vitest';
import type { EngineEvents, EngineList, EnginePage } from '#contracts/engines.ts';
import { newId } from '#platform/act.ts';
import type { Client } from '../support/client.ts';
import { decide, judge, oblige, open, runShort } from '../support/facts.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { sql, people, bays } = shop;
const { writer, technician, colleague, clerk } = shop.as;

let serial = 0;
const newEngine = (hours = '243.5') => {
  serial += 1;
  return takeIn(shop, { serial: `E-${serial}`, hours });
};
const page = async (engineId: string, client: Client = technician): Promise<EnginePage> => {
  const { status, body } = await client.get(`/api/engines/${engineId}`);
  expect(status).toBe(200);
  return body;
};
const handBack = async (jobId: string) => {
  await sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${people.writer} where id = ${jobId}`;
};
const partIn = async (engineId: string, place: string): Promise<string> => {
  const [part] = await sql<{ id: string }[]>`
    select id from fitted_part where engine_id = ${engineId} and place_code = ${place} and removed_at is null`;
  return part?.id ?? '';
};

describe('the list of engines', () => {
  const walk = async (query: string, between?: () => Promise<unknown>): Promise<string[]> => {
    const serials: string[] = [];
    let after: string | null = null;
    do {
      const from: string = after === null ? '' : `&after=${encodeURIComponent(after)}`;
      const { status, body } = await technician.get(`/api/engines?limit=3${query}${from}`);
      expect(status).toBe(200);
      const list: EngineList = body;
      serials.push(...list.items.map((item) => item.serial));
      after = list.next;
      await between?.();
    } while (after !== null);
    return serials;
  };

  test('page by page names every engine once, while others are taken in', async () => {
    const known: string[] = [];
    for (let number = 0; number < 10; number += 1) {
      known.push(`W-${5000 + number * 10}`);
      await takeIn(shop, { serial: `W-${5000 + number * 10}`, owner: 'Walked Through' });
    }
    let added = 0;
    const walked = await walk('&search=walked', async () => {
      added += 1;
      // Before and after the place reached, and right in between.
      await takeIn(shop, { serial: `W-${5000 + added * 25}X`, owner: 'Walked Through' });
    });
    expect(added).toBeGreaterThan(3);
    expect(new Set(walked).size).toBe(walked.length);
    expect(walked.filter((one) => known.includes(one))).toEqual(known);
    expect(walked).toEqual(walked.toSorted());
  });

  test('holds those in the shop, or all', async () => {
    const engine = await takeIn(shop, { serial: 'L-GONE', owner: 'Gone Home' });
    expect(await walk('&search=gone home')).toEqual(['L-GONE']);
    await handBack(engine.jobId);
    expect(await walk('&search=gone home')).toEqual([]);
    expect(await walk('&search=gone home&state=all')).toEqual(['L-GONE']);
  });

  test('is searched by serial, owner, family or job number; a wildcard is a letter like others', async () => {
    const engine = await takeIn(shop, { serial: 'S-77', owner: 'Percy 100%' });
    for (const search of ['s-77', 'percy', String(engine.number), '100%']) {
      expect(await walk(`&search=${encodeURIComponent(search)}`)).toContain('S-77');
    }
    expect(await walk(`&search=${encodeURIComponent('s%77')}`)).toEqual([]);
    expect(await walk('&search=halden')).toContain('S-77');
  });

  test('says the last visit, who holds it and where', async () => {
    const { engineId, number } = await takeIn(shop, { serial: 'S-78' });
    const { body } = await technician.get('/api/engines?search=S-78');
    expect(body.items).toMatchObject([
      {
        id: engineId,
        visits: 1,
        lastVisit: { number, hours: '243.5', handedBackAt: null },
        holder: { kind: 'bay', name: 'Rack' },
      },
    ]);
  });
});

describe('the title block', () => {
  test('of a third visit: hours, complaint, promise, sheet, standing, and the visits before', async () => {
    const first = await newEngine('100');
    const name = `E-${serial}`;
    await handBack(first.jobId);
    const second = await takeIn(shop, { serial: name, hours: '180.5' });
    await handBack(second.jobId);
    const third = await takeIn(shop, { serial: name, hours: '243' });
    await writer.post(`/api/jobs/${third.jobId}/promises`, { readyOn: '2099-12-04', sureOf5: 4 });
    await open(shop, third, 50);
    const seen = await page(third.engineId);
    expect(seen).toMatchObject({
      serial: name,
      family: { name: 'Halden 355', bore: { value: '88.0', unit: 'mm' } },
      owner: { name: 'Ingrid Falk' },
      hours: '243.0',
      holder: { kind: 'bay', name: 'Rack' },
      place: { name: 'Rack', kind: 'rack' },
      job: {
        id: third.jobId,
        visit: 3,
        complaint: 'Hard to start hot',
        revision: { number: 1, figuresInvented: true, newest: 1 },
        promise: { readyOn: '2099-12-04', sureOf5: 4, madeBy: { name: 'Idris Fenwick' } },
      },
      standing: { job: { id: third.jobId }, opening: { depth: 'head', covered: false } },
    });
    expect(seen.visits.map(({ visit, hours }) => [visit, hours])).toEqual([
      [3, '243.0'],
      [2, '180.5'],
      [1, '100.0'],
    ]);
    expect(seen.fittedParts.map(({ place }) => place)).toEqual(['cylinder', 'piston', 'ring 1', 'connecting rod']);
  });

  test('of an engine that went home tells of its last visit, and of no standing', async () => {
    const engine = await newEngine();
    await handBack(engine.jobId);
    expect(await page(engine.engineId)).toMatchObject({ job: { id: engine.jobId }, standing: null });
  });

  test('of an engine nobody knows is not there', async () => {
    expect((await technician.get(`/api/engines/${newId()}`)).status).toBe(404);
    expect((await technician.get('/api/engines/no-id')).status).toBe(400);
  });
});

describe('what we measured', () => {
  test('follows the sheet, measured or not, newest round first', async () => {
    const engine = await newEngine();
    await judge(shop, engine, {
      dimension: 'bore',
      verdict: 'past the limit',
      value: 88.061,
      margin: -0.014,
      limit: 88.05,
    });
    await judge(shop, engine, { dimension: 'bore', verdict: 'within standard', value: 88.251, round: 'after work' });
    await judge(shop, engine, {
      dimension: 'ring-gap-top',
      verdict: 'within service limit',
      type: 'interval',
      value: 0.52,
      high: 0.55,
    });
    const { measured } = await page(engine.engineId);
    const sheet = await sql<{ code: string }[]>`
      select code from spec_dimension where revision_id = ${shop.sheet.revisionId} order by ordinal`;
    expect(measured.map(({ dimension }) => dimension)).toEqual(sheet.map(({ code }) => code));
    const [bore, outOfRound] = measured;
    expect(bore?.findings.map(({ round }) => round)).toEqual(['after work', 'as received']);
    expect(bore?.findings[1]).toMatchObject({
      value: { type: 'point', value: { value: '88.061', unit: 'mm' } },
      u: { value: '0.0018', unit: 'mm' },
      guard: { value: '0.003', unit: 'mm' },
      margin: { value: '-0.014', unit: 'mm' },
      nearestLimit: { side: 'upper', value: { value: '88.050', unit: 'mm' } },
      verdict: 'past the limit',
      pPast: { low: 0.14, high: 0.14 },
      warnings: [{ code: 'too-coarse', words: 'Use a better instrument.' }],
      instruments: ['BG-2'],
      judgedBy: { name: 'Nadia Quill' },
    });
    expect(outOfRound).toMatchObject({ findings: [], limits: { service: { high: { value: '0.030', unit: 'mm' } } } });
    expect(measured.find(({ dimension }) => dimension === 'ring-gap-top')?.findings).toMatchObject([
      { value: { type: 'interval', interval: { low: '0.520', high: '0.550', unit: 'mm' } } },
    ]);
  });

  test('leaves out what was superseded, or rests on a struck reading', async () => {
    const engine = await newEngine();
    const first = await judge(shop, engine, { dimension: 'bore', verdict: 'undecided', value: 88.048 });
    await judge(shop, engine, {
      dimension: 'bore',
      verdict: 'within service limit',
      value: 88.041,
      supersedesId: first,
    });
    const struck = await judge(shop, engine, { dimension: 'piston', verdict: 'within standard', value: 87.96 });
    const readingId = await read(engine, { dimension: 'piston', position: '1', value: 87.96, findingId: struck });
    await sql`insert into reading_strike (reading_id, reason, struck_by_id) values (${readingId}, 'dirt', ${people.technician})`;
    const { measured } = await page(engine.engineId);
    const values = (code: string) =>
      measured.find(({ dimension }) => dimension === code)?.findings.map(({ verdict }) => verdict);
    expect(values('bore')).toEqual(['within service limit']);
    expect(values('piston')).toEqual([]);
  });

  const gauge = newId();
  const checkId = newId();
  const read = async (
    engine: { engineId: string; jobId: string },
    of: { dimension: string; position: string; value: number; findingId: string; kelvin?: number; repeat?: number },
  ): Promise<string> => {
    const id = newId();
    const milli = of.kelvin === undefined ? null : 293_150 + of.kelvin * 1000;
    await sql`
      insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe, alpha_ppb)
      values (${gauge}, 'BG-2', 'Bore gauge', 'dial bore gauge', 'length', 'mm', 3, 50000000, 160000000, 1000, 3000, 11500)
      on conflict do nothing`;
    await sql`
      insert into instrument_check (id, instrument_id, zero_error, checked_by_id) values (${checkId}, ${gauge}, 2000, ${people.technician})
      on conflict do nothing`;
    await sql`
      insert into reading (id, job_id, engine_id, dimension_code, position_code, repeat, round, keyed_text, keyed_unit, kind, observation,
        value_low, value_high, instrument_id, check_id, part_mk, instrument_mk, temperature_u_mk, read_by_id, read_at)
      values (${id}, ${engine.jobId}, ${engine.engineId}, ${of.dimension}, ${of.position}, ${of.repeat ?? 1}, 'as received', ${String(of.value)},
        'mm', 'length', 'value', ${Math.round(of.value * 1e6)}, ${Math.round(of.value * 1e6)}, ${gauge}, ${checkId}, ${milli}, ${milli},
        ${milli === null ? null : 500}, ${people.technician}, clock_timestamp())`;
    await sql`insert into finding_reading (finding_id, reading_id) values (${of.findingId}, ${id})`;
    return id;
  };

  test('of the bore makes a map: repeats averaged, zero error off', async () => {
    const engine = await newEngine();
    const findingId = await judge(shop, engine, { dimension: 'bore', verdict: 'undecided', value: 88.048 });
    await judge(shop, engine, { dimension: 'bore-taper', verdict: 'within standard', value: 0.017 });
    await read(engine, { dimension: 'bore', position: 'A-across', value: 88.049, findingId });
    await read(engine, { dimension: 'bore', position: 'A-across', value: 88.051, findingId, repeat: 2 });
    await read(engine, { dimension: 'bore', position: 'A-along', value: 88.041, findingId });
    await read(engine, { dimension: 'bore', position: 'C-across', value: 88.033, findingId });
    const { boreMaps } = await page(engine.engineId);
    expect(boreMaps).toMatchObject([
      {
        dimension: 'bore',
        findingId,
        axes: ['across', 'along'],
        correctedTo20Degrees: false,
        outOfRound: null,
        taper: { type: 'point', value: { value: '0.017', unit: 'mm' } },
        levels: [
          {
            level: 1,
            height: { value: '10.0', unit: 'mm' },
            values: [
              { axis: 'across', value: { value: '88.048', unit: 'mm' } },
              { axis: 'along', value: { value: '88.039', unit: 'mm' } },
            ],
          },
          {
            level: 3,
            height: { value: '65.0', unit: 'mm' },
            values: [{ axis: 'across', value: { value: '88.031', unit: 'mm' } }],
          },
        ],
      },
    ]);
  });

  // Geometry: an 88 mm aluminium bore (23e-6/K) at 28 °C is 0.0162 mm over, its steel gauge (11.5e-6/K) hides 0.0081 of it.
  test('of a warm bore is mapped as at 20 °C', async () => {
    const engine = await newEngine();
    const findingId = await judge(shop, engine, { dimension: 'bore', verdict: 'within standard', value: 88 });
    await read(engine, { dimension: 'bore', position: 'A-across', value: 88.0101, findingId, kelvin: 8 });
    const [map] = (await page(engine.engineId)).boreMaps;
    expect(map?.correctedTo20Degrees).toBe(true);
    expect(map?.levels[0]?.values[0]?.value.value).toBe('88.000');
  });

  const visitsWith = async (values: readonly (readonly [hours: number, value: number])[]) => {
    serial += 1;
    const name = `E-${serial}`;
    let last = { jobId: '', engineId: '', number: 0 };
    for (const [index, [hours, value]] of values.entries()) {
      if (index > 0) await handBack(last.jobId);
      last = await takeIn(shop, { serial: name, hours: String(hours) });
      const fittedPartId = await partIn(last.engineId, 'cylinder');
      await judge(shop, last, {
        dimension: 'bore',
        verdict: 'within service limit',
        value,
        fittedPartId,
        hours,
        partHours: hours,
      });
    }
    return last;
  };

  test('over the hours of one part becomes a line from three visits on, with the hours left', async () => {
    const { engineId } = await visitsWith([
      [0, 88],
      [100, 88.01],
      [200, 88.02],
    ]);
    const { wear, measured } = await page(engineId);
    expect(wear).toHaveLength(1);
    expect(wear[0]).toMatchObject({
      dimension: 'bore',
      limit: { side: 'upper', value: { value: '88.050', unit: 'mm' } },
      line: {
        perHundredHours: { value: '0.0100', unit: 'mm' },
        hoursLeft: { estimate: '300.0', earliest: '300.0', latest: '300.0' },
      },
    });
    expect(wear[0]?.points.map(({ partHours, value }) => [partHours, value.value])).toEqual([
      ['0.0', '88.000'],
      ['100.0', '88.010'],
      ['200.0', '88.020'],
    ]);
    expect(measured[0]?.earlier.map(({ hours, value }) => [hours, value.value])).toEqual([
      ['0.0', '88.000'],
      ['100.0', '88.010'],
    ]);
  });

  test('is held against four others of the family, and not against fewer', async () => {
    const worn = (perHundred: number) =>
      visitsWith([0, 100, 200].map((hours) => [hours, 88 + (perHundred * hours) / 100] as const));
    const family = async (engineId: string) => (await shop.as.clerk.get(`/api/engines/${engineId}/family-wear`)).body;
    const own = await worn(0.03);
    expect((await family(own.engineId)).items).toEqual([]);
    for (const rate of [0.008, 0.009, 0.011, 0.012]) await worn(rate);
    const { items } = await family(own.engineId);
    const [bore] = items;
    expect(items).toHaveLength(1);
    expect(bore).toMatchObject({
      dimension: 'bore',
      perHundredHours: { value: '0.0300', unit: 'mm' },
      standing: 'odd',
    });
    expect(bore.others).toBeGreaterThanOrEqual(4);
    expect(bore.slowerShare).toBe(1);
    expect(bore.words).toMatch(
      /^Wears unlike any of its family, 100 of 100 wear more slowly: 0\.0300 mm in 100 hours; /,
    );
    const usual = await worn(0.01);
    expect((await family(usual.engineId)).items).toMatchObject([
      { standing: 'usual', perHundredHours: { value: '0.0100', unit: 'mm' } },
    ]);
    expect((await shop.as.clerk.get(`/api/engines/${newId()}/family-wear`)).status).toBe(404);
  });

  test('says nothing of hours left from two visits', async () => {
    const { engineId } = await visitsWith([
      [0, 88],
      [100, 88.01],
    ]);
    const { wear } = await page(engineId);
    expect(wear[0]?.points).toHaveLength(2);
    expect(wear[0]?.line).toBeNull();
  });

  test('begins a new line with a new part', async () => {
    const { engineId, jobId } = await visitsWith([
      [0, 88],
      [100, 88.01],
      [200, 88.02],
    ]);
    await sql`update fitted_part set removed_at = clock_timestamp(), removed_job_id = ${jobId} where id = ${await partIn(engineId, 'cylinder')}`;
    const { wear, measured } = await page(engineId);
    expect(wear).toEqual([]);
    expect(measured[0]?.earlier).toHaveLength(2);
  });
});

describe('obligations', () => {
  test('carry cause, decision and what they made the job ask for', async () => {
    const engine = await newEngine();
    const findingId = await judge(shop, engine, { dimension: 'bore', verdict: 'past the limit', value: 88.061 });
    const obligationId = await oblige(shop, engine, findingId, 'Decide on the bore');
    const { demandLineId } = await runShort(shop, engine.jobId, { part: 'Piston, +0.25', short: 1, wanted: 1 });
    await sql`
      insert into demand_reason (id, demand_line_id, quantity, obligation_id, words) values (${newId()}, ${demandLineId}, 1, ${obligationId}, 'bored')`;
    const before = await page(engine.engineId);
    expect(before.obligations).toMatchObject([
      {
        id: obligationId,
        cause: { kind: 'finding', findingId, verdict: 'past the limit' },
        decision: null,
        discharge: null,
        demands: [{ part: 'Piston, +0.25', short: 1 }],
      },
    ]);
    expect(before.measured[0]?.findings[0]?.obligationId).toBe(obligationId);
    expect(before.standing?.waits.map(({ waitsFor }) => waitsFor)).toEqual(['decision', 'parts']);
    await decide(shop, engine.jobId, obligationId, 'bore');
    await sql`
      insert into obligation_act (id, obligation_id, act, reason, acted_by_id)
      values (${newId()}, ${obligationId}, 'discharged', 'bored to +0.25', ${people.lead})`;
    expect((await page(engine.engineId)).obligations).toMatchObject([
      { decision: { kind: 'bore', by: { name: 'Maren Tolk' } }, discharge: { reason: 'bored to +0.25' } },
    ]);
  });
});

describe('money', () => {
  test('is on the page for whoever has the right to it, and hidden from a technician', async () => {
    const { jobId, engineId } = await newEngine();
    await writer.post(`/api/jobs/${jobId}/quotes`, {
      lines: [{ kind: 'part', words: 'Piston', quantity: 1, each: { minor: '7654321', currency: 'EUR' } }],
    });
    expect((await page(engineId, writer)).quotes).toMatchObject([{ number: 1, total: { minor: '7654321' } }]);
    expect((await page(engineId, clerk)).quotes).toHaveLength(1);
    const seen = await page(engineId, technician);
    expect(seen.quotes).toBeNull();
    expect(JSON.stringify(seen)).not.toContain('7654321');
    const events = await technician.get(`/api/engines/${engineId}/events`);
    expect(JSON.stringify(events.body)).not.toContain('7654321');
  });
});

describe('a tray', () => {
  test('tells its pieces to its giver, and not to whoever is to count them blind', async () => {
    const { jobId, engineId } = await newEngine();
    const openingId = await open(shop, { jobId, engineId });
    const [trayId, pieceId, handoverId] = [newId(), newId(), newId()];
    await sql`insert into tray (id, job_id, label, name) values (${trayId}, ${jobId}, 'T-1', 'Cam caps')`;
    await sql`
      insert into custody (id, tray_id, person_id, place_id, from_at, moved_by_id)
      values (${newId()}, ${trayId}, ${people.technician}, ${bays.rack}, clock_timestamp(), ${people.technician})`;
    await sql`insert into piece (id, opening_id, name, expected) values (${pieceId}, ${openingId}, 'Dowel', 8)`;
    await sql`
      insert into piece_movement (id, piece_id, act, count, tray_id, moved_by_id)
      values (${newId()}, ${pieceId}, 'off', 7, ${trayId}, ${people.technician})`;
    const pieces = async (client: Client) => (await page(engineId, client)).trays[0]?.pieces;
    expect(await pieces(colleague)).toMatchObject([{ name: 'Dowel', expected: 8, off: 7, back: 0 }]);
    await sql`
      insert into handover (id, job_id, giver_id, receiver_id, place_id)
      values (${handoverId}, ${jobId}, ${people.technician}, ${people.colleague}, ${bays.rack})`;
    await sql`insert into handover_tray (id, handover_id, tray_id) values (${newId()}, ${handoverId}, ${trayId})`;
    await sql`
      insert into handover_line (id, handover_id, tray_id, piece_id, name, given)
      values (${newId()}, ${handoverId}, ${trayId}, ${pieceId}, 'Dowel', 7)`;
    expect(await pieces(colleague)).toMatchObject([{ name: 'Dowel', off: null, back: null }]);
    expect(await pieces(technician)).toMatchObject([{ name: 'Dowel', off: 7 }]);
    expect((await page(engineId)).trays[0]?.holder).toMatchObject({ kind: 'person', name: 'Nadia Quill' });
  });
});

describe('what happened', () => {
  test('comes newest first, page by page, each event once', async () => {
    const { jobId, engineId } = await newEngine();
    for (let day = 1; day < 8; day += 1) {
      await writer.post(`/api/jobs/${jobId}/promises`, { readyOn: `2099-12-0${day}`, sureOf5: 3 });
    }
    const numbers: number[] = [];
    let after: string | null = null;
    do {
      const from: string = after === null ? '' : `&after=${after}`;
      const { body } = await technician.get(`/api/engines/${engineId}/events?limit=3${from}`);
      const events: EngineEvents = body;
      numbers.push(...events.items.map(({ number }) => number));
      after = events.next;
    } while (after !== null);
    expect(numbers).toEqual([8, 7, 6, 5, 4, 3, 2, 1]);
    const { body } = await technician.get(`/api/engines/${engineId}/events?after=2`);
    expect(body.items).toMatchObject([
      { number: 1, kind: 'engine.taken-in', actor: { name: 'Idris Fenwick' }, data: { hours: '243.5', bay: 'Rack' } },
    ]);
  });

  test('with a page marker that is none is refused', async () => {
    const { engineId } = await newEngine();
    expect((await technician.get(`/api/engines/${engineId}/events?after=soon`)).status).toBe(400);
    expect((await technician.get(`/api/engines/${newId()}/events`)).status).toBe(404);
  });
});
