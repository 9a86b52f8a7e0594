import { expect } from 'vitest';
import { type StoresClock, startStoresClock } from '#features/stores/reservations/clock.ts';
import { openShop, type Shop, secondServer, takeIn } from '../../support/shop.ts';
import { addBin, addLot, addPart, demand } from '../../support/stores.ts';
import { binCount, jobCount } from './acts.ts';

/** A shop that two processes serve, each with its rounds. */
export interface World {
  readonly shop: Shop;
  readonly servers: readonly [Shop['as'], Shop['as']];
  /** Rounds that broke off with an error. */
  readonly brokenRounds: readonly unknown[];
  readonly close: () => Promise<void>;
}

export async function openWorld(): Promise<World> {
  const shop = await openShop();
  const other = await secondServer(shop, { withRounds: true });
  await shop.sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
  const brokenRounds: unknown[] = [];
  const clock: StoresClock = await startStoresClock(shop.sql, (error) => void brokenRounds.push(error));
  return {
    shop,
    servers: [shop.as, other.as],
    brokenRounds,
    close: async () => {
      await clock.close();
      await other.close();
      await shop.close();
    },
  };
}

/** Pieces and money as the answers told them: what the books must come to. */
export interface Told {
  came: number;
  cost: number;
  issued: number;
  returned: number;
  scrapped: number;
  sentBack: number;
  /** What each line has out. */
  readonly out: Map<string, number>;
}

/** What one history is about; its lots grow as they come in. */
export interface Stage {
  readonly jobs: readonly { readonly jobId: string; readonly lines: readonly string[]; quotes: string[] }[];
  readonly parts: readonly string[];
  readonly lots: readonly string[][];
  readonly bins: readonly string[];
  readonly bought: { readonly id: string; readonly partId: string; readonly lotId: string }[];
  /** Lines of orders of which something may be still to come. */
  readonly ordered: { readonly id: string; readonly partId: string }[];
  /** Count sheets, ended ones too. */
  readonly sheets: string[];
  readonly told: Told;
  /** The last of the parts is kept by serial: how many serials were given. */
  serials: number;
}

const shims = 3;
const worthOfLot = 1000;

/** Three shims, of which some are marked and one goes with another, and a part that is kept by serial; five jobs that want them all. */
export async function newStage({ shop }: World, name: string): Promise<Stage> {
  const { sql } = shop;
  const parts: string[] = [];
  for (let at = 0; at < shims; at += 1) parts.push((await addPart(sql, { shimNm: 2_350_000 })).id);
  const bySerial = (await addPart(sql)).id;
  await sql`update part set by_serial = true where id = ${bySerial}`;
  const [, first = '', second = ''] = parts;
  await sql`insert into part_companion (part_id, companion_id, quantity) values (${first}, ${second}, 1)`;
  const told: Told = { came: 0, cost: 0, issued: 0, returned: 0, scrapped: 0, sentBack: 0, out: new Map() };
  const lots: string[][] = [];
  for (const partId of parts) {
    const own: string[] = [];
    // Beside what bears no mark, some of each grade, and of two thicknesses.
    for (const marks of [
      { quantity: 6 },
      { quantity: 2, grade: 'A', shimNm: 2_350_000 },
      { quantity: 2, grade: 'B', shimNm: 2_300_000 },
    ]) {
      own.push(await addLot(shop, { partId, valueMinor: worthOfLot, ...marks }));
      told.came += marks.quantity;
      told.cost += worthOfLot;
    }
    lots.push(own);
  }
  parts.push(bySerial);
  lots.push([]);
  const jobs: Stage['jobs'][number][] = [];
  for (let at = 0; at < jobCount; at += 1) {
    const { jobId } = await takeIn(shop, { serial: `${name}-${at}` });
    const lines = await demand(
      shop,
      jobId,
      parts.map((id) => [id, 3] as const),
    );
    jobs.push({ jobId, lines: parts.map((id) => lines.get(id) ?? ''), quotes: [] });
  }
  const bins: string[] = [];
  for (let at = 0; at < binCount; at += 1) bins.push((await addBin(sql)).id);
  const stage: Stage = { jobs, parts, lots, bins, bought: [], ordered: [], sheets: [], told, serials: 0 };
  expect(stage.jobs.flatMap(({ lines }) => lines).every((line) => line !== '')).toBe(true);
  return stage;
}
