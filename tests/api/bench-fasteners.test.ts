import { afterAll, describe, expect, test } from 'vitest';
import { LooseFasteners, LooseWrench } from '#contracts/loose-fasteners.ts';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import type { Answer } from '../support/client.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

/** As anybody would with curl: no session, no key. */
const post = async (path: string, payload: object): Promise<Answer> => {
  const reply = await shop.app.inject({ method: 'POST', url: `/api/bench/${path}`, payload });
  return { status: reply.statusCode, body: reply.json(), headers: reply.headers };
};
const mm = (value: string) => ({ value, unit: 'mm' });
const nm = (value: string) => ({ value, unit: 'N.m' });
const deg = (value: string) => ({ value, unit: 'deg' });
const set = LooseFasteners.parse(Object.values(LooseFasteners.meta()?.examples ?? {})[0]);
const wrench = LooseWrench.parse(Object.values(LooseWrench.meta()?.examples ?? {})[0]);
const refusedAt = async (path: string, payload: object) => {
  const { status, body } = await post(path, payload);
  return [status, body.errors?.[0]?.pointer];
};

describe('a fastener set without a job', () => {
  test('its order is worked out, and its log says what comes next', async () => {
    const { status, body } = await post('fasteners', set);
    expect(status).toBe(200);
    expect(body).toMatchObject({ tightening: [1, 3, 2, 4], loosening: [4, 2, 3, 1], torqueToYield: true });
    expect(body.log).toMatchObject([
      { fastener: 1, taken: true },
      { fastener: 2, taken: false, words: 'Position 3 comes first. Pull the positions in their order.' },
    ]);
    expect(body.next).toEqual({ fastener: 3, stage: 1, figure: nm('30.0') });
    expect(body.afterLoosening).toBe('renew');
  });

  test('the maker’s order wins', async () => {
    const { body } = await post('fasteners', { ...set, orderIsMakers: true });
    expect(body.tightening).toEqual([1, 2, 3, 4]);
    expect(body.log.every(({ taken }: { taken: boolean }) => taken)).toBe(true);
  });

  test('a missed, a repeated, an early, a weak and a swapped pull are each told', async () => {
    const pulls = [
      [1, 1, nm('30')],
      [1, 1, nm('30')],
      [2, 1, nm('30')],
      [1, 2, deg('90')],
      [3, 1, nm('28')],
      [3, 1, nm('40.7')],
      [3, 1, { value: '22.1', unit: 'lbf.ft' }],
    ].map(([fastener, stage, value]) => ({ fastener, stage, value }));
    const { body } = await post('fasteners', { ...set, pulls });
    expect(body.log.map(({ words }: { words: string | null }) => words)).toEqual([
      null,
      expect.stringContaining('was pulled in stage 1 already'),
      expect.stringContaining('Position 3 comes first'),
      expect.stringContaining('Stage 1 is not complete'),
      expect.stringContaining('28.0 N·m is outside 28.8 N·m to 31.2 N·m'),
      expect.stringContaining('It looks like N·m taken for lbf·ft'),
      null,
    ]);
  });

  test('a torque is held against its bolt, an angle never', async () => {
    const bolt = { ...set, thread: 'M6', propertyClass: '8.8', pulls: [] };
    const guards = async (torque: string) =>
      (await post('fasteners', { ...bolt, stages: [{ torque: nm(torque) }, { angle: deg('360') }] })).body.stages.map(
        ({ guard }: { guard: object }) => guard,
      );
    expect(await guards('10')).toMatchObject([
      { kind: 'usual', words: null },
      { kind: 'not-judged', words: null },
    ]);
    expect(await guards('12')).toMatchObject([{ kind: 'note' }, { kind: 'not-judged' }]);
    const [warned] = await guards('15');
    expect(warned).toMatchObject({
      kind: 'warn',
      words: expect.stringContaining('It looks like N·m taken for lbf·ft'),
    });
  });

  test('bad input is refused with the field and the reason', async () => {
    const at = (changes: object) => refusedAt('fasteners', { ...set, pulls: [], ...changes });
    const [first, ...others] = set.positions;
    expect(await at({ stages: [{ torque: nm('30') }, { angle: deg('361') }] })).toEqual([422, '/stages/1/angle']);
    expect(await at({ stages: [{ angle: deg('0') }] })).toEqual([422, '/stages/0/angle']);
    expect(await at({ stages: [{ torque: nm('-3') }] })).toEqual([422, '/stages/0/torque']);
    expect(await at({ stages: [{ torque: nm('3'), angle: deg('90') }] })).toEqual([422, '/stages/0']);
    expect(await at({ stages: [{}] })).toEqual([422, '/stages/0']);
    expect(await at({ positions: [first, ...others, first] })).toEqual([422, '/positions/4/number']);
    expect(await at({ positions: [first, { ...first, number: 9 }] })).toEqual([422, '/positions/1']);
    expect(await at({ positions: [{ ...first, x: deg('4') }] })).toEqual([422, '/positions/0/x']);
    expect((await post('fasteners', { ...set, positions: [] })).status).toBe(400);
    expect((await post('fasteners', { ...set, positions: [{ ...first, number: 0 }] })).status).toBe(400);
    const { body } = await post('fasteners', { ...set, pulls: [{ fastener: 12, stage: 1, value: nm('30') }] });
    expect(body.log).toMatchObject([{ taken: false, words: 'This set has no position 12.' }]);
    expect(await at({ pulls: [{ fastener: 1, stage: 2, value: deg('400') }] })).toEqual([422, '/pulls/0/value']);
  });
});

describe('a wrench without a job', () => {
  test('with an adapter straight on it is set lower; each unfit wrench says all that is wrong', async () => {
    const { status, body } = await post('wrench', wrench);
    expect(status).toBe(200);
    expect(body).toMatchObject({ setting: nm('53.9'), take: 'TW-2' });
    expect(body.wrenches.map(({ faults }: { faults: string[] }) => faults)).toEqual([
      ['TW-1 ends at 50.0 N·m.'],
      [],
      ['The calibration of TW-3 ran out on 2026-09-30.', 'TW-3 has had more than 5000 pulls since its calibration.'],
    ]);
  });

  test('square to the handle nothing changes, turned back the setting rises', async () => {
    const setting = async (angle: string) =>
      Number(
        (await post('wrench', { ...wrench, adapter: { ...wrench.adapter, angle: deg(angle) } })).body.setting.value,
      );
    expect(await setting('90')).toBe(60);
    expect(await setting('135')).toBeGreaterThan(60);
  });

  test('bad input is refused with the field and the reason', async () => {
    const at = (changes: object) => refusedAt('wrench', { ...wrench, ...changes });
    const { adapter, wrenches } = wrench;
    expect(await at({ torque: nm('0') })).toEqual([422, '/torque']);
    expect(await at({ adapter: { ...adapter, angle: deg('200') } })).toEqual([422, '/adapter/angle']);
    expect(await at({ adapter: { ...adapter, wrenchLength: mm('-1') } })).toEqual([422, '/adapter/wrenchLength']);
    expect(await at({ adapter: { ...adapter, adapterLength: mm('500'), angle: deg('180') } })).toEqual([
      422,
      '/adapter',
    ]);
    expect(await at({ wrenches: [...wrenches, wrenches[0]] })).toEqual([422, '/wrenches/3/code']);
    expect(await at({ wrenches: [{ ...wrenches[0], largest: nm('0') }] })).toEqual([422, '/wrenches/0/largest']);
    expect((await post('wrench', { ...wrench, day: 'tomorrow' })).status).toBe(400);
  });
});

test('a sheet that states more than a bolt stands is noted, and is no worse a sheet', async () => {
  const [first] = sheetExample.fasteners;
  if (first === undefined) throw new Error('the example sheet has no fasteners');
  const fasteners = [
    {
      ...first,
      thread: 'M6',
      propertyClass: '8.8',
      stages: [
        { torque: nm('15'), angle: null },
        { torque: null, angle: deg('90') },
      ],
    },
  ];
  const { status, body } = await post('spec-sheet', { ...sheetExample, fasteners });
  expect(status).toBe(200);
  expect(body.faults).toEqual([]);
  expect(body.notes).toMatchObject([
    { pointer: '/fasteners/0/stages/0/torque', detail: expect.stringContaining('107 % of the thread’s proof load') },
  ]);
});

test('two rings of one code are refused', async () => {
  const rings = [
    { code: '1', placed: deg('20') },
    { code: '1', placed: deg('200') },
  ];
  expect(await refusedAt('ring-clock', { rings })).toEqual([422, '/rings/1/code']);
});

test('ring gaps by rule of thumb: spacer and rails by offsets of their own, a ring on a pin left alone', async () => {
  const rings = [
    { code: 'top' },
    { code: 'second', placed: deg('230') },
    { code: 'spacer', part: 'spacer' },
    { code: 'upper', part: 'rail' },
    { code: 'lower', part: 'rail' },
  ];
  const rule = { railOffset: deg('40') };
  const { body } = await post('ring-clock', { rings, rule, leastSeparation: deg('80'), railOffset: deg('30') });
  expect(body.well).toBe(true);
  expect(body.rings.map(({ angle, by }: { angle: { value: string }; by: string }) => [angle.value, by])).toEqual([
    ['45', 'rule'],
    ['230', 'placed'],
    ['135', 'rule'],
    ['95', 'rule'],
    ['175', 'rule'],
  ]);
  const pinned = [{ code: 'top', pin: deg('150'), placed: deg('155') }];
  const onPin = await post('ring-clock', { rings: pinned });
  expect(onPin.body.rings[0].words).toEqual(['A pin holds its gap at 150°: it isn’t turned.']);
  expect(await refusedAt('ring-clock', { rings: [{ code: 'top', pin: deg('360') }] })).toEqual([422, '/rings/0/pin']);
  const crowded = { rings, rule: {}, leastSeparation: deg('170') };
  expect(await refusedAt('ring-clock', crowded)).toEqual([422, '/rings/2']);
});
