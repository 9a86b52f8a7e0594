import { isoOf } from './clock.ts';
import type { Row } from './insert.ts';
import type { KitName } from './parts.ts';
import type { Lot, Stock } from './stock.ts';
import { type Act, tell, type Visit } from './visit.ts';
import { known, there } from './world.ts';

interface Line {
  readonly id: string;
  readonly row: Row;
  readonly part: string;
  readonly held: Map<Lot, { readonly row: Row; count: number }>;
}

/** What one job wants of stores. */
export interface JobParts {
  readonly visit: Visit;
  readonly stock: Stock;
  readonly lines: Map<string, Line>;
}

export const partsOf = (visit: Visit, stock: Stock): JobParts => ({ visit, stock, lines: new Map() });

const bump = (row: Row, column: string, by: number): void => {
  row[column] = Number(row[column]) + by;
};

export interface Wish {
  readonly part: string;
  readonly quantity: number;
  readonly words: string;
  readonly kit?: string;
  readonly obligationId?: string;
  readonly parent?: string;
}

/** Adds to what the job wants; several reasons for one part are one line. */
export function want(parts: JobParts, wishes: readonly Wish[], act: Act): void {
  const { visit, stock, lines } = parts;
  const { world } = visit;
  for (const wish of wishes) {
    const part = known(stock.parts, wish.part);
    const kitId = wish.kit === undefined ? null : known(stock.kits, wish.kit).id;
    let line = lines.get(wish.part);
    if (line === undefined) {
      const id = world.id('demand_line', act.at);
      const row = world.rows.add('demand_line', {
        id,
        job_id: visit.jobId,
        part_id: part.id,
        kit_id: kitId,
        wanted: 0,
        reserved: 0,
        short: 0,
        issued: 0,
        cancelled: 0,
        not_asked: 0,
        short_since: null,
        added_by_id: known(world.people, act.by),
        added_at: isoOf(act.at),
      });
      line = { id, row, part: wish.part, held: new Map() };
      lines.set(wish.part, line);
    }
    bump(line.row, 'wanted', wish.quantity);
    bump(line.row, 'not_asked', wish.quantity);
    world.rows.add('demand_reason', {
      id: world.id('demand_reason', act.at),
      demand_line_id: line.id,
      quantity: wish.quantity,
      kit_id: kitId,
      obligation_id: wish.obligationId ?? null,
      parent_part_id: wish.parent === undefined ? null : known(stock.parts, wish.parent).id,
      words: wish.words,
      added_at: isoOf(act.at),
      withdrawn_at: null,
    });
  }
  tell(visit, 'parts.demanded', act, { lines: wishes.map(({ part, quantity, words }) => ({ part, quantity, words })) });
}

export function wantKit(
  parts: JobParts,
  name: KitName,
  act: Act,
  instead: Readonly<Record<string, string>> = {},
): void {
  const kit = `${parts.visit.engine.family.code} ${name}`;
  const { lines } = known(parts.stock.kits, kit);
  want(
    parts,
    lines.map(([part, quantity]) => ({ part: instead[part] ?? part, quantity, words: name, kit })),
    act,
  );
}

/** Asks for everything not asked for yet: what is there is held, the rest is short. */
export function reserve(parts: JobParts, act: Act, of: { readonly expiresAt?: number } = {}): void {
  const { visit, stock, lines } = parts;
  const { world } = visit;
  const reserved: unknown[] = [];
  const short: unknown[] = [];
  for (const line of lines.values()) {
    let left = Number(line.row.not_asked);
    const asked = left;
    for (const lot of stock.lotsAt(line.part, act.at)) {
      if (left === 0) break;
      const count = Math.min(left, lot.onHand - lot.reserved);
      left -= count;
      stock.move(lot, {
        act: 'reserve',
        onHand: 0,
        reserved: count,
        by: act.by,
        at: act.at,
        demandLineId: line.id,
        jobId: visit.jobId,
      });
      const held = line.held.get(lot);
      if (held === undefined) {
        const row = world.rows.add('reservation', {
          id: world.id('reservation', act.at),
          demand_line_id: line.id,
          lot_id: there(lot.row.id, 'a lot'),
          quantity: count,
          expires_at: of.expiresAt === undefined ? null : isoOf(of.expiresAt),
          reserved_at: isoOf(act.at),
        });
        line.held.set(lot, { row, count });
      } else {
        held.count += count;
        held.row.quantity = held.count;
      }
    }
    bump(line.row, 'not_asked', -asked);
    bump(line.row, 'reserved', asked - left);
    if (asked > left) reserved.push({ part: line.part, quantity: asked - left });
    if (left > 0) {
      bump(line.row, 'short', left);
      line.row.short_since = isoOf(act.at);
      short.push({ part: line.part, name: known(stock.parts, line.part).data.name, missing: left });
    }
  }
  tell(visit, short.length === 0 ? 'kit.reserved' : 'part.short', act, { allOrNothing: false, reserved, short });
}

/** Hands out what is held for the job; all of it, or the named parts. */
export function issue(parts: JobParts, act: Act, only?: readonly string[]): void {
  const { visit, stock, lines } = parts;
  for (const line of lines.values()) {
    if (only !== undefined && !only.includes(line.part)) continue;
    let total = 0;
    for (const [lot, held] of line.held) {
      if (held.count === 0) continue;
      stock.move(lot, {
        act: 'issue',
        onHand: -held.count,
        reserved: -held.count,
        by: 'hetty',
        at: act.at,
        demandLineId: line.id,
        jobId: visit.jobId,
      });
      total += held.count;
      held.count = 0;
      held.row.quantity = 0;
    }
    if (total === 0) continue;
    bump(line.row, 'reserved', -total);
    bump(line.row, 'issued', total);
    tell(
      visit,
      'part.issued',
      { at: act.at, by: 'hetty' },
      { part: line.part, name: known(stock.parts, line.part).data.name, quantity: total },
    );
  }
}

/** A line that turns out not to be needed: it is cancelled before anything was asked for. */
export function cancelUnasked(parts: JobParts, part: string, act: Act): void {
  const { row } = known(parts.lines, part);
  const count = Number(row.not_asked);
  row.not_asked = 0;
  bump(row, 'cancelled', count);
  tell(parts.visit, 'demand.cancelled', act, { part, quantity: count });
}
