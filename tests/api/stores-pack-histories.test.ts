import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { packWorth } from '#domain/stock/packs.ts';
import { openShop, secondServer } from '../support/shop.ts';
import { addBin, addPart, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const other = await secondServer(shop);
const { sql, vendorId } = shop;
const bins = [await addBin(sql), await addBin(sql)];
afterAll(async () => {
  await other.close();
  await shop.close();
});

const clerks = 8;
/** Packs that no price divides by, and one of a single piece. */
const sold = [
  { packSize: 3, minor: '1000' },
  { packSize: 10, minor: '999' },
  { packSize: 7, minor: '1' },
  { packSize: 1, minor: '1234' },
] as const;

const act = fc.record({
  what: fc.constantFrom(
    'order',
    'deliver',
    'deliver',
    'deliver',
    'receive',
    'refuse',
    'send back',
    'call off',
    'reprice',
  ),
  line: fc.nat(5),
  second: fc.nat(5),
  packs: fc.nat(2),
  loose: fc.nat(4),
  wrong: fc.nat(2),
  freight: fc.constantFrom(0, 0, 1, 997),
  over: fc.boolean(),
  damaged: fc.boolean(),
});
type Act = typeof act extends fc.Arbitrary<infer One> ? One : never;

/** A line as its clerks have been answered: what the books must come to in the end. */
interface Line {
  readonly id: string;
  readonly partId: string;
  readonly packSize: number;
  readonly minor: bigint;
  readonly ordered: number;
  readonly lots: string[];
  came: number;
  back: number;
  calledOff: number;
  keptOver: boolean;
}
interface Scene {
  readonly parts: readonly string[];
  readonly lines: Line[];
}
type Clerk = typeof shop.as.clerk;

async function ordered(stage: Scene, clerk: Clerk, { at, packs }: { at: number; packs: number }): Promise<number> {
  const partId = stage.parts[at % sold.length] ?? '';
  const { status, body } = await clerk.post('/api/purchase-orders', { vendorId, lines: [{ partId, packs }] });
  if (status === 201) {
    const [{ id, packSize, quantity, price }] = body.lines;
    const minor = BigInt(price.minor);
    stage.lines.push({
      id,
      partId,
      packSize,
      minor,
      ordered: quantity,
      lots: [],
      came: 0,
      back: 0,
      calledOff: 0,
      keptOver: false,
    });
  }
  return status;
}

async function scene(): Promise<Scene> {
  const stage: Scene = { parts: [], lines: [] };
  const parts = await Promise.all(sold.map(() => addPart(sql)));
  for (const [at, { packSize, minor }] of sold.entries()) {
    const price = { minor, currency: 'EUR' };
    const told = { vendorId, partId: parts[at]?.id, price, packSize, validFrom: '2020-01-01' };
    expect((await shop.as.clerk.post('/api/vendor-prices', told)).status).toBe(201);
  }
  const whole = { ...stage, parts: parts.map(({ id }) => id) };
  for (let at = 0; at < 6; at += 1) expect(await ordered(whole, shop.as.clerk, { at, packs: 2 })).toBe(201);
  return whole;
}

const onesOf = ({ packs, loose }: Act, line: Line): number => packs * line.packSize + loose;

/** Good ones, and some that are no good, on one line or on two: with freight. */
async function deliver(stage: Scene, one: Act, clerk: Clerk): Promise<number> {
  const asked = [...new Set([stage.lines[one.line], stage.lines[one.second]])].flatMap((line) => line ?? []);
  const aside = { packs: one.wrong, quantity: 1, words: 'odd' };
  const { status, body } = await clerk.post('/api/deliveries', {
    lines: asked.map(({ id }) => ({
      purchaseLineId: id,
      binId: bins[one.line % bins.length]?.id,
      packs: one.packs,
      quantity: one.loose,
      ...(one.over ? { acceptOver: true } : {}),
      ...(one.damaged ? { damaged: aside } : { wrong: aside }),
    })),
    ...(one.freight === 0 ? {} : { freight: { minor: String(one.freight), currency: 'EUR' } }),
  });
  if (status !== 201) return status;
  for (const line of asked) took(line, onesOf(one, line), one.over);
  for (const { purchaseLineId, lotId } of body.lines)
    stage.lines.find(({ id }) => id === purchaseLineId)?.lots.push(lotId);
  return status;
}

function took(line: Line, ones: number, over: boolean): void {
  line.came += ones;
  line.keptOver ||= over;
}

async function does(stage: Scene, one: Act, clerk: Clerk): Promise<number> {
  const line = stage.lines[one.line % stage.lines.length];
  if (line === undefined) throw new Error('no line');
  const ones = onesOf(one, line);
  const some = { packs: one.packs, quantity: one.loose };
  const fault = (kind: string, more: object) =>
    clerk.post(`/api/purchase-lines/${line.id}/faults`, { kind, words: 'so it was', ...more });
  switch (one.what) {
    case 'order':
      return ordered(stage, clerk, { at: one.line, packs: one.packs + 1 });
    case 'deliver':
      return deliver(stage, one, clerk);
    case 'receive': {
      const over = one.over ? { acceptOver: true } : {};
      const body = { partId: line.partId, binId: bins[0]?.id, purchaseLineId: line.id, ...some, ...over };
      if (ones === 0) return 200;
      const { status, body: told } = await clerk.post('/api/receipts', body);
      if (status === 201) {
        took(line, ones, one.over);
        line.lots.push(told.lotId);
      }
      return status;
    }
    case 'refuse':
      return ones === 0 ? 200 : (await fault(one.damaged ? 'came damaged' : 'came wrong', some)).status;
    case 'send back': {
      const lotId = line.lots[one.second % Math.max(1, line.lots.length)];
      if (lotId === undefined || ones === 0) return 200;
      const { status } = await fault('sent back', { ...some, lotId });
      if (status === 201) line.back += ones;
      return status;
    }
    case 'call off': {
      if (ones === 0) return 200;
      const { status } = await fault('called off', some);
      if (status === 201) line.calledOff += ones;
      return status;
    }
    case 'reprice': {
      const price = { minor: String(500 + one.loose), currency: 'EUR' };
      const body = { vendorId, partId: line.partId, price, packSize: one.packs + 2, validFrom: '2020-01-02' };
      return (await clerk.post('/api/vendor-prices', body)).status;
    }
  }
}

/** What the database says of a line: its counts, and what came in on it cost without its freight. */
async function lineNow(id: string) {
  const [row] = await sql<
    { quantity: number; received: number; packSize: number; cost: number; keyedOtherwise: number; lots: number }[]
  >`
    select pl.quantity, pl.received, pl.pack_size as "packSize",
      (select coalesce(sum(m.value_change - coalesce(f.freight_minor, 0)), 0)::bigint from purchase_fact f
         join stock_movement m on m.lot_id = f.lot_id and m.act = 'receive'
       where f.purchase_line_id = pl.id and f.kind = 'received') as cost,
      (select count(*)::int from purchase_fact f where f.purchase_line_id = pl.id
         and f.quantity is distinct from f.keyed_packs * pl.pack_size + f.keyed_loose) as "keyedOtherwise",
      (select coalesce(sum(l.on_hand), 0)::int from stock_lot l where l.id in (
         select f.lot_id from purchase_fact f where f.purchase_line_id = pl.id and f.kind = 'received')) as lots
    from purchase_line pl where pl.id = ${id}`;
  if (row === undefined) throw new Error(`no line ${id}`);
  return row;
}

async function expectLineToAdd(line: Line): Promise<void> {
  const now = await lineNow(line.id);
  const { came, back, calledOff, ordered: first } = line;
  expect(now).toMatchObject({ packSize: line.packSize, received: came - back, quantity: first - calledOff });
  // Ordered were whole packs; every count is whole, and in stock lies what came and did not go back.
  expect(first % line.packSize).toBe(0);
  expect(now.lots).toBe(came - back);
  expect(now.keyedOtherwise).toBe(0);
  if (now.received > now.quantity) expect(line.keptOver).toBe(true);
  // To the cent what the vendor asks for so many, in whatever parts they came; after a return ones are paid anew.
  if (back === 0) expect(BigInt(now.cost)).toBe(packWorth({ priceMinor: line.minor, packSize: line.packSize }, came));
}

test('eight clerks at two processes order, take in, refuse, send back and call off packs: every count is whole, every cent is there', async () => {
  const done = new Map<string, number>();
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(act, { minLength: 6, maxLength: 6 }), { minLength: clerks, maxLength: clerks }),
      async (days) => {
        const stage = await scene();
        const statuses = await Promise.all(
          days.map(async (acts, at) => {
            const clerk = (at % 2 === 0 ? shop : other).as.clerk;
            const answers: number[] = [];
            for (const one of acts) {
              const status = await does(stage, one, clerk);
              if (status === 201) done.set(one.what, (done.get(one.what) ?? 0) + 1);
              answers.push(status);
            }
            return answers;
          }),
        );
        // Refused with words where more would come, go back or be called off than there is; never broken.
        expect(statuses.flat().filter((status) => ![200, 201, 409, 422].includes(status))).toEqual([]);
        await expectBooksToAgree(sql);
        for (const line of stage.lines) await expectLineToAdd(line);
      },
    ),
    { numRuns: 5, seed: 27_113, endOnFailure: true },
  );
  // A history in which nothing could be done would prove nothing.
  for (const what of ['order', 'deliver', 'receive', 'refuse', 'send back', 'call off', 'reprice'])
    expect(done.get(what) ?? 0, what).toBeGreaterThan(0);
}, 180_000);
