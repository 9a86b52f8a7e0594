import type { StockClass } from '#contracts/counts.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface RuleRow {
  readonly class: StockClass;
  readonly tolerancePieces: number;
  readonly tolerancePermille: number;
  readonly everyDays: number;
  readonly setBy: string;
}

/** The newest rule of each class that the shop has set. */
export async function findRules(sql: Sql): Promise<readonly RuleRow[]> {
  return sql<RuleRow[]>`
    select distinct on (r.class) r.class, r.tolerance_pieces as "tolerancePieces", r.tolerance_permille as "tolerancePermille",
      r.every_days as "everyDays", p.name as "setBy"
    from count_rule r join person p on p.id = r.set_by_id order by r.class, r.set_at desc, r.id desc`;
}

/** Nobody else sets a rule until this transaction ends; what is read of them meanwhile stands. */
export async function lockRules(sql: Sql): Promise<void> {
  await sql`lock table count_rule in share row exclusive mode`;
}

export async function insertRule(sql: Sql, rule: Omit<RuleRow, 'setBy'> & { readonly byId: string }): Promise<void> {
  await sql`
    insert into count_rule (id, class, tolerance_pieces, tolerance_permille, every_days, set_by_id)
    values (${newId()}, ${rule.class}, ${rule.tolerancePieces}, ${rule.tolerancePermille}, ${rule.everyDays}, ${rule.byId})`;
}
