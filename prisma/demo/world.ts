import type { BayKey, VendorKey } from './bays.ts';
import type { Clock, Instant } from './clock.ts';
import { isoOf } from './clock.ts';
import type { FamilyCode } from './families/families.ts';
import type { Row, Rows } from './insert.ts';
import type { DemoInstrument } from './instruments.ts';
import type { PersonKey } from './people.ts';
import type { ProcedureData, StepData } from './procedures/procedure.ts';
import type { SheetFigures } from './spec-sheet.ts';

/** Something by its key, or a fault of the demo's own data. */
export function known<K, V>(map: ReadonlyMap<K, V>, key: K): V {
  const value = map.get(key);
  if (value === undefined) throw new Error(`The demo names ${String(key)}, which it does not have`);
  return value;
}

/** A value that must be there, or a fault of the demo's own data. */
export function there<T>(value: T | undefined | null, what: string): T {
  if (value === undefined || value === null) throw new Error(`The demo lacks ${what}`);
  return value;
}

export interface StepRow {
  readonly id: string;
  readonly data: StepData;
  readonly pieceIds: readonly string[];
}
export interface ProcedureRow {
  readonly id: string;
  readonly versionId: string;
  readonly data: ProcedureData;
  readonly steps: readonly StepRow[];
}
export interface RevisionRow {
  readonly id: string;
  readonly sheet: SheetFigures;
}
export interface FamilyRow {
  readonly id: string;
  readonly code: FamilyCode;
  readonly name: string;
  /** Oldest first. */
  readonly revisions: readonly RevisionRow[];
  readonly procedures: readonly ProcedureRow[];
}

export interface InstrumentRow {
  readonly id: string;
  readonly data: DemoInstrument;
  /** Oldest first. */
  readonly checks: readonly { readonly id: string; readonly at: Instant }[];
}

/** What the shop is before any engine comes in; every later part of the demo writes into its rows. */
export interface World {
  readonly clock: Clock;
  readonly rows: Rows;
  readonly id: (table: string, at: Instant) => string;
  /** When the shop began to keep records here. */
  readonly origin: Instant;
  readonly people: ReadonlyMap<PersonKey, string>;
  readonly names: ReadonlyMap<string, string>;
  readonly bays: ReadonlyMap<BayKey, string>;
  readonly terminals: ReadonlyMap<string, string>;
  readonly vendors: ReadonlyMap<VendorKey, string>;
  readonly families: ReadonlyMap<FamilyCode, FamilyRow>;
  readonly instruments: ReadonlyMap<string, InstrumentRow>;
  readonly events: EventFact[];
}

export interface EventFact {
  readonly at: Instant;
  readonly kind: string;
  readonly actor: PersonKey;
  readonly terminal: string | null;
  readonly engine: Row | null;
  readonly jobId: string | null;
  readonly data: Readonly<Record<string, unknown>>;
}

/** Numbers the events per engine in the order in which they happened, and writes them. */
export function writeEvents(world: World): void {
  const counts = new Map<Row, number>();
  const inOrder = world.events
    .map((fact, index) => ({ fact, index }))
    .sort((a, b) => a.fact.at - b.fact.at || a.index - b.index);
  for (const { fact } of inOrder) {
    const number = fact.engine === null ? null : (counts.get(fact.engine) ?? 0) + 1;
    if (fact.engine !== null && number !== null) {
      counts.set(fact.engine, number);
      fact.engine.event_count = number;
    }
    world.rows.add('event', {
      id: world.id('event', fact.at),
      kind: fact.kind,
      actor_id: known(world.people, fact.actor),
      terminal_id: fact.terminal === null ? null : known(world.terminals, fact.terminal),
      engine_id: fact.engine?.id ?? null,
      engine_number: number,
      job_id: fact.jobId,
      data: fact.data,
      happened_at: isoOf(fact.at),
      recorded_at: isoOf(fact.at),
    });
  }
}
