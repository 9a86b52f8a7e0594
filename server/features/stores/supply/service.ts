import type { Cores, MarkCore, PartSupply, TellPrice } from '#contracts/supply.ts';
import { normalQuantile } from '#domain/metrology/normal-distribution.ts';
import { packsFor } from '#domain/stock/packs.ts';
import { economicOrderQuantity, reorderPoint, spreadOf } from '#domain/stock/reorder.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { minorOf } from '../movements/service.ts';
import { findPart, findVendor } from '../receiving/queries.ts';
import { findDailyUse, findLeadTimes, findPartToBuy } from './buying-queries.ts';
import { pricedFor } from './money.ts';
import { countSettledCores, findCores, findPrices, insertCoreMark, insertPrice } from './queries.ts';
import { buyingRule } from './rules.ts';

/** How a part is bought, with the computation of when and how many. */
export async function partSupply(sql: Sql, id: string, seesMoney: boolean): Promise<PartSupply> {
  const { part, unit, priceMinor, cost, packSize } = found(await findPartToBuy(sql, id), 'such part');
  const assumed = await buyingRule(sql);
  const [use, leads, prices, priced] = await Promise.all([
    findDailyUse(sql, id, assumed.days),
    findLeadTimes(sql, id),
    findPrices(sql, id),
    pricedFor(sql, seesMoney),
  ]);
  const [daily, lead] = [spreadOf(use), spreadOf(leads)];
  const leadDays = leads.length === 0 ? assumed.leadDays : lead.mean;
  const z = normalQuantile(assumed.service);
  const point = reorderPoint({
    meanPerDay: daily.mean,
    deviationPerDay: daily.deviation,
    leadDays,
    leadDeviationDays: lead.deviation,
    z,
  });
  const holding = (cost ?? priceMinor) * assumed.holdingShare;
  const balanced = economicOrderQuantity(assumed.orderCost, daily.mean * 365, holding);
  const orderQuantity = balanced === null ? null : Math.max(1, Math.round(balanced));
  return {
    part,
    unit,
    prices: prices.map(({ priceMinor: minor, ...price }) => ({ ...price, price: priced(minor) })),
    reorder: {
      days: assumed.days,
      used: use.reduce((sum, count) => sum + count, 0),
      meanPerDay: daily.mean,
      deviationPerDay: daily.deviation,
      leadDays,
      leadDeviationDays: lead.deviation,
      leadLines: leads.length,
      service: assumed.service,
      z,
      safetyStock: point.safetyStock,
      reorderAt: Math.ceil(point.reorderAt),
      orderCost: assumed.orderCost,
      holdingShare: assumed.holdingShare,
      orderQuantity,
      packSize,
      orderPacks: orderQuantity === null ? null : packsFor(orderQuantity, packSize),
    },
  };
}

/** Writes down what a vendor asks for a part from a day on. */
export async function tellPrice(act: Act, asked: TellPrice, seesMoney: boolean): Promise<PartSupply> {
  const vendor = found(await findVendor(act.sql, asked.vendorId), 'such vendor');
  const part = found(await findPart(act.sql, asked.partId), 'such part');
  await insertPrice(act.sql, {
    vendorId: vendor.id,
    partId: part.id,
    priceMinor: await minorOf(act, asked.price, '/price'),
    packSize: asked.packSize,
    validFrom: asked.validFrom,
    theirNumber: asked.theirNumber?.trim() ?? '',
    byId: act.actor.id,
  });
  await act.event('price.told', { data: { part: part.number, vendor: vendor.name, validFrom: asked.validFrom } });
  return partSupply(act.sql, part.id, seesMoney);
}

export async function cores(sql: Sql, seesMoney: boolean): Promise<Cores> {
  const priced = await pricedFor(sql, seesMoney);
  const rows = await findCores(sql);
  return {
    items: rows.map(({ chargeMinor, ...core }) => ({ ...core, charge: priced(chargeMinor) })),
    settled: await countSettledCores(sql),
  };
}

/** A core went to its vendor, or its charge came back. */
export async function markCore(
  act: Act,
  asked: MarkCore & { readonly id: string },
  seesMoney: boolean,
): Promise<Cores> {
  const words = asked.words?.trim() ?? '';
  const part = await insertCoreMark(act.sql, { coreId: asked.id, mark: asked.mark, words, byId: act.actor.id });
  await act.event('core.marked', { data: { part: found(part, 'such core'), mark: asked.mark, words } });
  return cores(act.sql, seesMoney);
}
