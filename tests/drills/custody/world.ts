import type { Trays } from '#contracts/custody.ts';
import type { Answer } from '../../support/client.ts';
import { insertProcedure } from '../../support/procedures.ts';
import type { Shop } from '../../support/shop.ts';
import { takeIn } from '../../support/shop.ts';
import type { Act } from './acts.ts';
import type { EngineIndex, Facts } from './facts.ts';
import { readFacts } from './facts-read.ts';
import { type Names, namesOf } from './names.ts';
import { requestOf } from './requests.ts';
import { type Belief, WITH_ENGINE } from './state.ts';

/** The shop as it really is: two engines of it, asked over HTTP by several people. */
export interface World {
  readonly shop: Shop;
  readonly names: Names;
  readonly send: (belief: Belief, act: Act) => Promise<Sent>;
  readonly facts: (of: readonly EngineIndex[]) => Promise<Facts>;
}

export interface Sent {
  readonly answer: Answer;
  /** Sends the very same request once more, under the same key. */
  readonly again: () => Promise<Answer>;
}

let serials = 0;

export async function newWorld(shop: Shop): Promise<World> {
  serials += 2;
  const engines = [
    await takeIn(shop, { serial: `DRILL-${serials}` }),
    await takeIn(shop, { serial: `DRILL-${serials + 1}` }),
  ] as const;
  const { versionId } = await insertProcedure(shop.sql, {
    familyId: shop.sheet.familyId,
    code: `drill-${serials}`,
    kind: 'strip',
    steps: [{ title: 'Look it over' }],
  });
  const names = namesOf(shop, { engines, versionId });
  return {
    shop,
    names,
    facts: (of) => readFacts(shop.sql, { names, of }),
    send: async (belief, act) => {
      const lines = act.kind === 'count' ? await linesOf(shop, { names, act }) : [];
      const { url, body } = requestOf(belief, act, { names, lines });
      const headers = { 'idempotency-key': crypto.randomUUID() };
      const ask = () => shop.as[act.who].post(url, body, headers);
      return { answer: await ask(), again: ask };
    },
  };
}

async function linesOf(shop: Shop, { names, act }: { names: Names; act: Act & { kind: 'count' } }) {
  const rows = await shop.sql<{ id: string }[]>`
    select id from handover_line
    where handover_id = ${names.id(act.offer)} and tray_id is not distinct from ${act.tray === WITH_ENGINE ? null : names.id(act.tray)}
    order by id`;
  return rows.map(({ id }) => id);
}

/** Learns the ids of what an act brought into being. `before` and `after` are what was and is believed. */
export async function learn(
  world: World,
  { act, answer, step, after }: { act: Act; answer: Answer; step: string; after: Belief },
): Promise<void> {
  const { names } = world;
  const { body } = answer;
  const bind = (what: string, id: unknown) => {
    if (typeof id === 'string') names.bind(`${step}:${what}`, id);
  };
  switch (act.kind) {
    case 'make tray':
      return bind('tray', body.id);
    case 'open':
      return bind('opening', body.id);
    case 'begin run':
      return bind('run', body.id);
    case 'offer':
      return bind('offer', body.id);
    case 'count off':
      if (act.line === null) bind('line', body.pieces[0].id);
      return bind('duty', body.obligationsOpened[0]);
    case 'possibly inside':
      return bindSearch(world, { of: act.line, step });
    case 'put in':
      return bind('thing', body.thing.id);
    case 'not found':
      return bindSearch(world, { of: act.thing, step });
    case 'read':
      return bind('duty', body.obligations.opened[0]);
    case 'send out':
      bind('away', body.id);
      return bindDuties(body.obligations);
    case 'take':
    case 'leave':
    case 'move':
    case 'back':
      return bindDuties(body.obligations);
    case 'count':
      return bindDuties(body.obligations.filter((id: string) => names.key(id) === id));
    default:
      return;
  }
  /** New obligations come in the order in which the act raised them. */
  function bindDuties(ids: readonly string[]): void {
    const made = after.engines[act.engine].duties.filter(({ key }) => key.startsWith(`${step}:`));
    for (const [index, { key }] of made.entries()) {
      const id = ids[index];
      if (id !== undefined) names.bind(key, id);
    }
  }
}

/** Learns a search and its obligation: the oldest about that line or thing that has no other key yet. */
async function bindSearch({ shop, names }: World, { of, step }: { of: string; step: string }): Promise<void> {
  const [search, duty] = [`${step}:search`, `${step}:duty`];
  const rows = await shop.sql<{ id: string; obligationId: string }[]>`
    select id, obligation_id as "obligationId" from inside_search
    where ${names.id(of)} in (piece_id, put_in_id) order by opened_at, id`;
  const row = rows.find(({ id }) => names.key(id) === id || names.key(id) === search);
  if (row === undefined) throw new Error(`no search was opened for ${of}`);
  names.bind(search, row.id);
  names.bind(duty, row.obligationId);
}

/** Makes room for the next history: whatever stands in a bay goes away to the vendor. */
export async function clearAway({ shop, names }: World): Promise<void> {
  for (const { engineId, jobId } of names.engines) {
    const lead = shop.as.lead;
    const { withEngine }: Trays = (await lead.get(`/api/jobs/${jobId}/trays`)).body;
    const counts = withEngine.map(({ pieceId }) => ({ trayId: engineId, pieceId, counted: 0 }));
    const counted = { counts, withDifference: true };
    await lead.post(`/api/engines/${engineId}/move`, {
      to: { personId: shop.people.lead, bayId: shop.bays.rack },
      reason: 'The drill is over',
      trayIds: [],
      ...counted,
    });
    await lead.post(`/api/jobs/${jobId}/outside-work`, {
      subject: { engine: true },
      vendorId: shop.vendorId,
      work: 'Put away',
      dueOn: '2099-12-31',
      ...counted,
    });
  }
}
