import type { Adapter } from '#domain/fasteners/adapter.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface SetRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly thread: string;
  readonly propertyClass: string;
  readonly condition: 'dry' | 'oiled' | 'locking compound';
  readonly reuse: 'reuse' | 'inspect' | 'one-time';
  readonly tool: string;
  readonly orderIsMakers: boolean;
  readonly unit: string;
  readonly source: string;
  readonly page: string;
  readonly fasteners: readonly { readonly number: number; readonly x: number; readonly y: number }[];
  readonly stages: readonly {
    readonly ordinal: number;
    readonly torque: number | null;
    readonly angle: number | null;
  }[];
}

/** The sheet's fastener sets, each with its positions and stages. */
export async function findSets(sql: Sql, revisionId: string): Promise<readonly SetRow[]> {
  return sql<SetRow[]>`
    select s.id, s.code, s.name, s.thread, s.property_class as "propertyClass", s.condition, s.reuse, s.tool,
           s.order_is_makers as "orderIsMakers", s.unit, s.source, s.page,
           (select coalesce(json_agg(json_build_object('number', f.number, 'x', f.x_nm, 'y', f.y_nm) order by f.number), '[]')
              from spec_fastener f where f.set_id = s.id) as fasteners,
           (select coalesce(json_agg(json_build_object('ordinal', t.ordinal, 'torque', t.torque_unm, 'angle', t.angle_udeg) order by t.ordinal), '[]')
              from spec_fastener_stage t where t.set_id = s.id) as stages
    from spec_fastener_set s where s.revision_id = ${revisionId} order by s.code`;
}

export interface PullRow {
  readonly id: string;
  readonly setCode: string;
  readonly fastener: number;
  readonly stage: number;
  readonly text: string;
  readonly unit: string;
  readonly torque: number | null;
  readonly angle: number | null;
  readonly instrumentCode: string | null;
  readonly shown: number | null;
  readonly wrenchLength: number | null;
  readonly adapterLength: number | null;
  readonly adapterAngle: number | null;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

/** The standing pulls of a job since its opening began. */
export async function findPulls(sql: Sql, jobId: string, since: string | null): Promise<readonly PullRow[]> {
  return sql<PullRow[]>`
    select t.id, t.set_code as "setCode", t.fastener, t.stage, t.keyed_text as text, t.keyed_unit as unit, t.torque_unm as torque,
           t.angle_udeg as angle, i.code as "instrumentCode", t.shown_unm as shown,
           t.wrench_length_nm as "wrenchLength", t.adapter_length_nm as "adapterLength", t.adapter_angle_udeg as "adapterAngle", p.id as "byId", p.name as by, t.pulled_at as at
    from torque_pull t join person p on p.id = t.pulled_by_id left join instrument i on i.id = t.instrument_id
    where t.job_id = ${jobId} and t.pulled_at >= coalesce(${since}::timestamptz, '-infinity')
      and not exists (select from torque_strike s where s.pull_id = t.id)
    order by t.pulled_at, t.id`;
}

export interface NewPull {
  readonly jobId: string;
  readonly setCode: string;
  readonly fastener: number;
  readonly stage: number;
  readonly text: string;
  readonly unit: string;
  readonly torque: number | null;
  readonly angle: number | null;
  readonly instrumentId: string | null;
  /** What the wrench showed with an adapter on it; null without one. */
  readonly shown: number | null;
  readonly adapter: Adapter | null;
  readonly byId: string;
}

export async function insertPull(sql: Sql, pull: NewPull): Promise<string> {
  const id = newId();
  await sql`
    insert into torque_pull (id, job_id, set_code, fastener, stage, keyed_text, keyed_unit, torque_unm, angle_udeg, instrument_id,
                             shown_unm, wrench_length_nm, adapter_length_nm, adapter_angle_udeg, pulled_by_id)
    values (${id}, ${pull.jobId}, ${pull.setCode}, ${pull.fastener}, ${pull.stage}, ${pull.text}, ${pull.unit}, ${pull.torque},
            ${pull.angle}, ${pull.instrumentId}, ${pull.shown}, ${pull.adapter?.wrenchLength ?? null},
            ${pull.adapter?.adapterLength ?? null}, ${pull.adapter?.angle ?? null}, ${pull.byId})`;
  return id;
}

export async function findPullJob(sql: Sql, pullId: string) {
  const [row] = await sql<
    { jobId: string; setCode: string; fastener: number; stage: number; isAngle: boolean; struck: boolean }[]
  >`
    select t.job_id as "jobId", t.set_code as "setCode", t.fastener, t.stage, t.angle_udeg is not null as "isAngle",
           exists (select from torque_strike s where s.pull_id = t.id) as struck
    from torque_pull t where t.id = ${pullId}`;
  return row;
}

export async function insertStrike(sql: Sql, strike: { pullId: string; reason: string; byId: string }): Promise<void> {
  await sql`insert into torque_strike (pull_id, reason, struck_by_id) values (${strike.pullId}, ${strike.reason}, ${strike.byId})`;
}

export interface WrenchRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly largest: number;
  readonly calibratedUntil: string | null;
  readonly pulls: number;
}

/** Torque wrenches in use, with the pulls made since each was calibrated. */
export async function findWrenches(sql: Sql): Promise<readonly WrenchRow[]> {
  return sql<WrenchRow[]>`
    select i.id, i.code, i.name, i.range_high as largest, i.calibration_due_on as "calibratedUntil",
           (select count(*)::int from torque_pull t where t.instrument_id = i.id
              and t.pulled_at >= coalesce(i.calibrated_on::timestamptz, '-infinity')) as pulls
    from instrument i where i.kind = 'torque' and i.retired_at is null order by i.code`;
}
