import type { BayKey } from './bays.ts';
import { isoOf } from './clock.ts';
import type { PersonKey } from './people.ts';
import type { Opening } from './tally.ts';
import { type Act, bayName, moveEngine, moveTray, type Tray, tell, traysHere, type Visit } from './visit.ts';
import { known } from './world.ts';

export interface Offer extends Act {
  readonly to: PersonKey;
  readonly bay: BayKey;
  readonly withEngine: boolean;
  readonly trays?: readonly string[];
  readonly loose?: string;
  readonly state?: string;
}

export interface Offered {
  readonly id: string;
  readonly row: Record<string, unknown>;
  readonly offer: Offer;
  readonly lines: readonly {
    readonly id: string;
    readonly given: number;
    readonly name: string;
    /** Null: beside the engine. */
    readonly tray: Tray | null;
  }[];
  readonly trayRows: readonly Record<string, unknown>[];
}

/** The giver offers engine and trays with what lies in them; nothing moves yet. */
export function offer(visit: Visit, opening: Opening | undefined, of: Offer): Offered {
  const { world } = visit;
  const id = world.id('handover', of.at);
  const trays = traysHere(visit, of.trays);
  const row = world.rows.add('handover', {
    id,
    job_id: visit.jobId,
    engine_id: of.withEngine ? visit.engine.id : null,
    giver_id: known(world.people, of.by),
    receiver_id: known(world.people, of.to),
    place_id: known(world.bays, of.bay),
    state_words: of.state ?? '',
    loose_words: of.loose ?? '',
    offered_at: isoOf(of.at),
    outcome: null,
    ended_at: null,
    ended_by_id: null,
    ended_reason: '',
  });
  const trayRows = trays.map((tray) =>
    world.rows.add('handover_tray', {
      id: world.id('handover_tray', of.at),
      handover_id: id,
      tray_id: tray.id,
      open: true,
    }),
  );
  const lines = [...trays, ...(of.withEngine ? [null] : [])].flatMap((tray) =>
    (opening?.pieces ?? [])
      .filter((piece) => piece.tray === tray && piece.loose > 0)
      .map((piece) => {
        const lineId = world.id('handover_line', of.at);
        world.rows.add('handover_line', {
          id: lineId,
          handover_id: id,
          tray_id: tray?.id ?? null,
          piece_id: piece.id,
          name: piece.name,
          given: piece.loose,
        });
        return { id: lineId, given: piece.loose, name: piece.name, tray };
      }),
  );
  tell(visit, 'handover.offered', of, {
    handoverId: id,
    receiver: world.names.get(of.to),
    place: bayName(of.bay),
    engine: of.withEngine,
    trays: trays.map(({ label }) => label),
    state: of.state ?? '',
    loose: of.loose ?? '',
  });
  return { id, row, offer: of, lines, trayRows };
}

/** The receiver counts tray by tray and takes it over; `fewer` names what was counted short. */
export function accept(
  visit: Visit,
  offered: Offered,
  of: { readonly at: number; readonly fewer?: Readonly<Record<string, number>> },
): readonly string[] {
  const { world } = visit;
  const { offer: given, row, id } = offered;
  const by = given.to;
  const short: string[] = [];
  for (const line of offered.lines) {
    const counted = line.given - (of.fewer?.[line.name] ?? 0);
    if (counted !== line.given) short.push(line.id);
    world.rows.add('handover_count', {
      id: world.id('handover_count', of.at - 60_000),
      line_id: line.id,
      attempt: 1,
      counted,
      counted_by_id: known(world.people, by),
      counted_at: isoOf(of.at - 60_000),
    });
  }
  row.outcome = short.length > 0 ? 'accepted with a difference' : 'accepted';
  row.ended_at = isoOf(of.at);
  row.ended_by_id = known(world.people, by);
  for (const tray of offered.trayRows) tray.open = false;
  const act: Act = { at: of.at, by };
  const to = { person: by, in: given.bay } as const;
  const reason = `handed over by ${world.names.get(given.by) ?? ''}`;
  if (given.withEngine) moveEngine(visit, to, act, reason, id);
  for (const tray of traysHere(visit, given.trays)) moveTray(visit, tray, { to, act, reason, handoverId: id });
  tell(visit, 'handover.accepted', act, {
    handoverId: id,
    outcome: row.outcome,
    giver: world.names.get(given.by),
    receiver: world.names.get(by),
    place: bayName(given.bay),
    engine: given.withEngine,
    trays: traysHere(visit, given.trays).map(({ label }) => label),
    differences: Object.entries(of.fewer ?? {}).map(([name, count]) => `${name}: ${count} fewer`),
  });
  return short;
}
