import type { AddTerminal, ChangeBay, ChangeShop, ChangeTerminal, ChangeVendor } from '#contracts/shop.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  insertTerminal,
  lockBay,
  lockTerminal,
  lockVendor,
  retireBay,
  retireTerminal,
  retireVendor,
  updateBay,
  updateShop,
  updateTerminal,
  updateVendor,
  vendorHolds,
} from './changing-queries.ts';
import { lockFloorPlan } from './queries.ts';
import { refuseOverlap } from './service.ts';

interface Kept {
  readonly id: string;
}

/** Another name, kind, room or place for a bay. It never takes fewer engines than stand in it. */
export async function changeBay(act: Act, id: string, asked: ChangeBay): Promise<Kept> {
  await lockFloorPlan(act.sql);
  const bay = found(await lockBay(act.sql, id), 'such bay');
  const { column, row, width = 1, height = 1 } = asked.grid ?? bay.grid;
  const now = {
    name: asked.name?.trim() ?? bay.name,
    kind: asked.kind ?? bay.kind,
    capacity: asked.capacity ?? bay.capacity,
    grid: { column, row, width, height },
  };
  if (now.capacity < bay.standing) {
    const detail = `${bay.standing} engines stand in ${bay.name}. Move some first.`;
    throw new ProblemError('refused', detail, { errors: [{ pointer: '/capacity', detail }] });
  }
  await refuseOverlap(act.sql, now.grid, id);
  await updateBay(act.sql, id, now);
  await act.event('bay.changed', { data: { was: bay.name, ...now } });
  return { id };
}

/** A bay that is no more; refused while anything stands in it. */
export async function giveUpBay(act: Act, id: string): Promise<Kept> {
  await lockFloorPlan(act.sql);
  const bay = found(await lockBay(act.sql, id), 'such bay');
  await retireBay(act.sql, id);
  await act.event('bay.given-up', { data: { name: bay.name } });
  return { id };
}

/** A terminal people sign in at. */
export async function addTerminal(act: Act, asked: AddTerminal): Promise<Kept> {
  const name = asked.name.trim();
  const id = await insertTerminal(act.sql, { ...asked, name });
  await act.event('terminal.added', { data: { name } });
  return { id };
}

export async function changeTerminal(act: Act, id: string, asked: ChangeTerminal): Promise<Kept> {
  const terminal = found(await lockTerminal(act.sql, id), 'such terminal');
  const now = {
    name: asked.name?.trim() ?? terminal.name,
    bayId: asked.bayId === undefined ? terminal.bayId : asked.bayId,
    idleMinutes: asked.idleMinutes === undefined ? terminal.idleMinutes : asked.idleMinutes,
  };
  await updateTerminal(act.sql, id, now);
  await act.event('terminal.changed', { data: { name: now.name, idleMinutes: now.idleMinutes } });
  return { id };
}

export async function giveUpTerminal(act: Act, id: string): Promise<Kept> {
  const terminal = found(await lockTerminal(act.sql, id), 'such terminal');
  await retireTerminal(act.sql, id);
  await act.event('terminal.given-up', { data: { name: terminal.name } });
  return { id };
}

export async function changeVendor(act: Act, id: string, asked: ChangeVendor): Promise<Kept> {
  const vendor = found(await lockVendor(act.sql, id), 'such vendor');
  await updateVendor(act.sql, id, asked);
  await act.event('vendor.changed', { data: { was: vendor.name, ...asked } });
  return { id };
}

/** A vendor nothing more is sent to or bought from; refused while it holds something of ours. */
export async function giveUpVendor(act: Act, id: string): Promise<Kept> {
  const vendor = found(await lockVendor(act.sql, id), 'such vendor');
  if (await vendorHolds(act.sql, id)) {
    throw new ProblemError('refused', `${vendor.name} still holds an engine or a tray. Take it back first.`);
  }
  await retireVendor(act.sql, id);
  await act.event('vendor.given-up', { data: { name: vendor.name } });
  return { id };
}

/** The shop's name, address, zone and language. Its currency stays: sums are written down in it. */
export async function changeShop(act: Act, asked: ChangeShop): Promise<Record<string, never>> {
  await lockFloorPlan(act.sql);
  await updateShop(act.sql, asked);
  await act.event('shop.changed', { data: asked });
  return {};
}
