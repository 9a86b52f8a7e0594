import { v7 as uuidv7 } from 'uuid';
import type { Role } from '#contracts/rights.ts';
import type { Sql } from '#platform/database/client.ts';

/** Who is signed in, as every route and service sees them. */
export interface Actor {
  readonly id: string;
  readonly name: string;
  readonly initials: string;
  readonly roles: readonly Role[];
  readonly sessionId: string;
  readonly terminalId: string | undefined;
}

export interface EventFacts {
  readonly engineId?: string;
  readonly jobId?: string;
  /** Facts for the timeline, in words and wire quantities; never a giver's blind count. */
  readonly data?: Readonly<Record<string, unknown>>;
}

/**
 * One write of one person: an open transaction, who does it, and the one way to tell of it. Services take it first;
 * queries take its `sql`. The clock of facts is PostgreSQL's, taken after the subject is locked.
 */
export interface Act {
  readonly sql: Sql;
  readonly actor: Actor;
  /** When it happened, as the terminal claims (an entry kept while the network was down), else when it was recorded. */
  readonly happenedAt: string | undefined;
  readonly event: (kind: string, facts: EventFacts) => Promise<void>;
}

/**
 * A write that nobody's hand makes: the service's own, when a time has come or stock is free for who waits for it. Its
 * events have no actor.
 */
export type OwnAct = Omit<Act, 'actor'> & { readonly actor: null };

/** Either: for what happens alike whoever does it. */
export type AnyAct = Act | OwnAct;

export const newId = (): string => uuidv7();

/** Opens an act on a transaction. Its events are numbered per engine under that engine's row lock. */
export function actOn(sql: Sql, actor: Actor, happenedAt?: string): Act {
  return { sql, actor, happenedAt, event: async (kind, facts) => tell(sql, { kind, actor, happenedAt, facts }) };
}

/** Opens an act of the service's own on a transaction. */
export function ownActOn(sql: Sql): OwnAct {
  const who = { actor: null, happenedAt: undefined };
  return { sql, ...who, event: async (kind, facts) => tell(sql, { kind, ...who, facts }) };
}

interface Told {
  readonly kind: string;
  readonly actor: Actor | null;
  readonly happenedAt: string | undefined;
  readonly facts: EventFacts;
}

async function tell(sql: Sql, { kind, actor, happenedAt, facts }: Told): Promise<void> {
  const { engineId, jobId, data } = facts;
  await sql`
    with numbered as (
      update engine set event_count = event_count + 1 where id = ${engineId ?? null} returning event_count
    )
    insert into event (id, kind, actor_id, terminal_id, engine_id, engine_number, job_id, data, happened_at)
    values (${newId()}, ${kind}, ${actor?.id ?? null}, ${actor?.terminalId ?? null}, ${engineId ?? null},
            (select event_count from numbered), ${jobId ?? null}, ${sql.json((data ?? {}) as never)},
            coalesce(${happenedAt ?? null}::timestamptz, clock_timestamp()))`;
}
