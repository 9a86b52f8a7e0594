import type { BuyingRules, SetBuyingRule } from '#contracts/buying-rules.ts';
import { type Act, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { findCurrency } from '../ledger/queries.ts';
import { minorOf } from '../movements/service.ts';

/** What a suggestion assumes, as it is computed with. */
export interface BuyingRule {
  readonly service: number;
  readonly orderCost: number;
  readonly holdingShare: number;
  readonly leadDays: number;
  readonly days: number;
}

/** Common practice, no source: what holds until somebody sets the shop's own. */
const usual: BuyingRule = { service: 0.95, orderCost: 1_500, holdingShare: 0.2, leadDays: 10, days: 365 };

interface RuleRow extends BuyingRule {
  readonly reason: string;
  readonly setBy: string;
  readonly setAt: string;
}

const findRules = (sql: Sql, limit: number | null = null) => sql<RuleRow[]>`
  select r.service_permille / 1000.0::float8 as service, r.order_minor as "orderCost", r.holding_permille / 1000.0::float8 as "holdingShare",
    r.lead_days as "leadDays", r.history_days as days, r.reason, w.name as "setBy", r.set_at as "setAt"
  from buying_rule r join person w on w.id = r.set_by_id order by r.set_at desc limit ${limit}`;

export async function buyingRule(sql: Sql): Promise<BuyingRule> {
  const [newest] = await findRules(sql, 1);
  return newest ?? usual;
}

const percent = (share: number): number => Math.round(share * 1000) / 10;

/** What suggestions assume now, and what they assumed before. */
export async function buyingRules(sql: Sql): Promise<BuyingRules> {
  const currency = await findCurrency(sql);
  const rows = await findRules(sql);
  const told = ({ service, orderCost, holdingShare, leadDays, days }: BuyingRule) => ({
    servicePercent: percent(service),
    orderCost: { minor: String(orderCost), currency },
    holdingPercent: percent(holdingShare),
    leadDays,
    historyDays: days,
  });
  return {
    inForce: told(rows[0] ?? usual),
    history: rows.map((row) => ({ ...told(row), reason: row.reason, setBy: row.setBy, setAt: row.setAt })),
  };
}

/** Sets what suggestions assume from now on; what held before stays to be read. */
export async function setBuyingRule(act: Act, asked: SetBuyingRule): Promise<BuyingRules> {
  const orderMinor = await minorOf(act, asked.orderCost, '/orderCost');
  await act.sql`
    insert into buying_rule (id, service_permille, order_minor, holding_permille, lead_days, history_days, reason, set_by_id)
    values (${newId()}, ${Math.round(asked.servicePercent * 10)}, ${orderMinor}, ${Math.round(asked.holdingPercent * 10)},
            ${asked.leadDays}, ${asked.historyDays}, ${asked.reason.trim()}, ${act.actor.id})`;
  await act.event('buying-rule.set', { data: { ...asked } });
  return buyingRules(act.sql);
}
