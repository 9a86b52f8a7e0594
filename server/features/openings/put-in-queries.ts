import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export type PutInKind = 'rag' | 'plug' | 'tool' | 'other';
export type PutInAct = 'taken out' | 'not found' | 'found' | 'not inside';

export interface ThingRow {
  readonly id: string;
  readonly openingId: string;
  readonly kind: PutInKind;
  readonly name: string;
  readonly where: string;
  readonly count: number;
  readonly stillIn: number;
  readonly notFound: number;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
  readonly acts: readonly {
    readonly act: PutInAct;
    readonly count: number;
    readonly reason: string;
    readonly by: { readonly id: string; readonly name: string };
    readonly at: string;
  }[];
}

/** What was put into an open engine, and what has come of it; the latest put in first, as it comes out. */
export async function findThings(sql: Sql, of: { openingId: string } | { id: string }): Promise<readonly ThingRow[]> {
  return sql<ThingRow[]>`
    select i.id, i.opening_id as "openingId", i.kind, i.name, i.where_words as "where", i.count, i.count - i.came_out as "stillIn",
           i.not_found as "notFound", p.id as "byId", p.name as by, i.put_in_at as at,
           (select coalesce(json_agg(json_build_object('act', a.act, 'count', a.count, 'reason', a.reason,
                     'by', json_build_object('id', w.id, 'name', w.name), 'at', a.acted_at) order by a.acted_at, a.id), '[]')
            from put_in_act a join person w on w.id = a.acted_by_id where a.put_in_id = i.id) as acts
    from put_in i join person p on p.id = i.put_in_by_id
    where ${'id' in of ? sql`i.id = ${of.id}` : sql`i.opening_id = ${of.openingId}`} order by i.put_in_at desc, i.id desc`;
}

export async function insertThing(
  sql: Sql,
  of: { openingId: string; kind: PutInKind; name: string; where: string; count: number; byId: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into put_in (id, opening_id, kind, name, where_words, count, put_in_by_id)
    values (${id}, ${of.openingId}, ${of.kind}, ${of.name}, ${of.where}, ${of.count}, ${of.byId})`;
  return id;
}

export async function insertThingAct(
  sql: Sql,
  of: { id: string; act: PutInAct; count: number; reason: string; byId: string },
): Promise<void> {
  await sql`
    insert into put_in_act (id, put_in_id, act, count, reason, acted_by_id)
    values (${newId()}, ${of.id}, ${of.act}, ${of.count}, ${of.reason}, ${of.byId})`;
}
