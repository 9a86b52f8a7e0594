import type { AddBay, AddOwner, AddVendor, ShopFacts } from '#contracts/shop.ts';
import { instruments as register } from '#features/instruments/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findOverlapping, findShop, insertBay, insertOwner, insertVendor, lockFloorPlan } from './queries.ts';

/** The shop as it is set up. */
export async function shopFacts(sql: Sql): Promise<ShopFacts> {
  const [shop, { items }] = await Promise.all([findShop(sql), register(sql)]);
  return {
    ...found(shop, 'shop yet'),
    instruments: items.map(({ id, code, name, calibrationDueOn, calibration, checkedToday }) => ({
      id,
      code,
      name,
      calibrationDueOn,
      calibration,
      checkedToday,
    })),
  };
}

/** A bay has cells of its own. Under the lock of the floor plan. */
export async function refuseOverlap(
  sql: Sql,
  grid: Parameters<typeof findOverlapping>[1],
  but?: string,
): Promise<void> {
  const other = await findOverlapping(sql, grid, but);
  if (other === undefined) return;
  const detail = `${other} is there already. Give the bay cells of its own.`;
  throw new ProblemError('conflict', detail, { errors: [{ pointer: '/grid', detail }] });
}

/** A new bay on the floor plan, on cells that no other bay covers. */
export async function addBay(act: Act, asked: AddBay): Promise<{ id: string }> {
  await lockFloorPlan(act.sql);
  const { column, row, width = 1, height = 1 } = asked.grid;
  const grid = { column, row, width, height };
  await refuseOverlap(act.sql, grid);
  const name = asked.name.trim();
  const id = await insertBay(act.sql, { ...asked, name }, grid);
  await act.event('bay.added', { data: { name, kind: asked.kind } });
  return { id };
}

/** A vendor: somebody work is sent to, or parts are bought from. */
export async function addVendor(act: Act, asked: AddVendor): Promise<{ id: string }> {
  const name = asked.name.trim();
  const id = await insertVendor(act.sql, { name, trade: asked.trade.trim(), contact: asked.contact?.trim() ?? '' });
  await act.event('vendor.added', { data: { name } });
  return { id };
}

/** An owner of engines. Two may have one name, so nothing is refused for it. */
export async function addOwner(act: Act, asked: AddOwner): Promise<{ id: string }> {
  const name = asked.name.trim();
  const id = await insertOwner(act.sql, { name, contact: asked.contact?.trim() ?? '' });
  await act.event('owner.added', { data: { name } });
  return { id };
}
