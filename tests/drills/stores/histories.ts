import fc from 'fast-check';
import { expect } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { type Drilled, newTally } from '../telling.ts';
import { type Act, type ActKind, daysOf } from './acts.ts';
import { countWaitingInVain, expectInvariants, holdsRunFor } from './checks.ts';
import { does } from './clerk.ts';
import type { At } from './doing.ts';
import { newStage, openWorld, type Stage, type World } from './world.ts';

const [people, actsOfADay, bursts] = [8, 10, 3] as const;
/** The rounds begin soon after a change; whoever still waits after so long is forgotten. */
const servedWithin = 20_000;
/** A rack takes a hundred engines. */
const historiesInAShop = 20;

interface Told {
  readonly seed: number;
  readonly onAct: (kind: ActKind, wasDone: boolean) => void;
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** Every clerk goes through their acts, all at once; tells what was done and answered, in the order of the answers. */
async function burst(world: World, stage: Stage, { days, onAct }: { days: Act[][]; onAct: Told['onAct'] }) {
  const trace: string[] = [];
  await Promise.all(
    days.map(async (day, who) => {
      const at: At = { stage, shop: world.shop, as: world.servers[who % 2 === 0 ? 0 : 1] };
      for (const one of day) {
        const answer = await does(at, one);
        if (answer === undefined) continue;
        const { status, body } = answer;
        trace.push(`${who}: ${JSON.stringify(one)} ${status} ${status < 300 ? '' : (body?.detail ?? body)}`);
        // Refused with words where pieces are gone or a hold is over by then; never broken.
        if (![200, 201, 409, 422].includes(status))
          throw new Error(`${one.what}: ${status} ${JSON.stringify(body)}\n${trace.join('\n')}`);
        onAct(one.what, status < 300);
      }
    }),
  );
  return trace;
}

/** Waits until the rounds of both processes have let go what ran out and served whom they can; nobody may be left. */
async function settle({ shop: { sql } }: World, stage: Stage): Promise<void> {
  const running = await holdsRunFor(sql, stage);
  if (running > 0) {
    await pause(running + 20);
    // The clock looks every few seconds where nothing changes: not waited for here.
    await makeRound(sql);
  }
  const until = Date.now() + servedWithin;
  while ((await countWaitingInVain(sql, stage)) > 0) {
    if (Date.now() > until) throw new Error('somebody waits who could be served, or holds what ran out');
    await pause(25);
  }
}

/** At the end no bin is counted or closed any more, so that what is out may come back. */
async function openAll({ shop: { as } }: World, { sheets, bins }: Stage): Promise<void> {
  for (const id of sheets) {
    const { status } = await as.clerk.post(`/api/count-sheets/${id}/give-up`, { reason: 'over' });
    expect([201, 409]).toContain(status);
  }
  expect((await as.clerk.post('/api/bins/changes', { binIds: bins, closed: false })).status).toBe(201);
}

/** At the end every job calls off what it still wants, and brings back what it has: all lies free, for what it cost. */
async function windUp({ shop }: World, stage: Stage): Promise<void> {
  const { sql } = shop;
  const binId = stage.bins[0];
  for (const { lines } of stage.jobs) {
    for (const line of lines) {
      const [now] = await sql<{ open: number; issued: number }[]>`
        select wanted - cancelled - issued as open, issued from demand_line where id = ${line}`;
      if ((now?.open ?? 0) > 0) {
        const { status, body } = await shop.as.clerk.post(`/api/demand-lines/${line}/cancel`, { words: 'over' });
        expect(status, JSON.stringify(body)).toBe(200);
      }
    }
    for (const line of lines) {
      const out = stage.told.out.get(line) ?? 0;
      if (out === 0) continue;
      const { status, body } = await shop.as.clerk.post(`/api/demand-lines/${line}/return`, { quantity: out, binId });
      expect(status, JSON.stringify(body)).toBe(200);
      stage.told.returned += out;
      stage.told.out.delete(line);
    }
  }
  await expectInvariants(sql, stage);
  const [left] = await sql`
    select count(*)::int as lines from demand_line
    where part_id = any(${stage.parts}::uuid[]) and reserved + short + not_asked + issued > 0`;
  expect(left?.lines).toBe(0);
  const [promised] = await sql`
    select coalesce(sum(reserved), 0)::int as pieces from stock_lot where part_id = any(${stage.parts}::uuid[])`;
  expect(promised?.pieces).toBe(0);
}

async function history(world: World, { seed, onAct }: Told): Promise<void> {
  const [drawn = []] = fc.sample(fc.array(daysOf(people, actsOfADay), { minLength: bursts, maxLength: bursts }), {
    seed,
    numRuns: 1,
  });
  const stage = await newStage(world, `CLERKS-${seed}`);
  let trace: readonly string[] = [];
  try {
    for (const days of drawn) {
      trace = await burst(world, stage, { days, onAct });
      await settle(world, stage);
      await expectInvariants(world.shop.sql, stage);
      expect(world.brokenRounds).toEqual([]);
    }
    trace = [];
    await openAll(world, stage);
    await windUp(world, stage);
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    throw new Error(`seed ${seed}: ${words}\n${trace.join('\n')}`, { cause: error });
  }
}

interface Drilling {
  readonly steps: number;
  readonly seed: number;
  readonly onProgress?: (so: Drilled<ActKind>) => void;
}

/**
 * Histories of eight people at two processes until so many acts are done. The n-th is drawn from the seed + n: its acts
 * are had again by that seed, though not the order in which they meet.
 */
export async function drill({ steps, seed, onProgress }: Drilling) {
  const { acts, onAct } = newTally<ActKind>();
  let [done, histories, deadlocks] = [0, 0, 0];
  const onEach = (kind: ActKind, wasDone: boolean) => {
    done += 1;
    onAct(kind, wasDone);
  };
  const soFar = () => ({ steps: done, histories, acts, deadlocks });
  while (done < steps) {
    const world = await openWorld();
    try {
      for (let at = 0; at < historiesInAShop && done < steps; at += 1) {
        await history(world, { seed: seed + histories, onAct: onEach });
        histories += 1;
        onProgress?.(soFar());
      }
      deadlocks += await deadlocksBroken(world);
    } finally {
      await world.close();
    }
  }
  return soFar();
}

/** How often PostgreSQL had to break a deadlock; the service tried each of those again. */
async function deadlocksBroken({ shop: { sql } }: World): Promise<number> {
  const [row] = await sql<{ deadlocks: number }[]>`
    select deadlocks::int as deadlocks from pg_stat_database where datname = current_database()`;
  return row?.deadlocks ?? 0;
}
