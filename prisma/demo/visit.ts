import type { BayKey, VendorKey } from './bays.ts';
import { type Instant, isoOf } from './clock.ts';
import type { FamilyCode } from './families/families.ts';
import type { Row } from './insert.ts';
import type { PersonKey } from './people.ts';
import type { FamilyRow, RevisionRow, World } from './world.ts';
import { known, there } from './world.ts';

export interface Engine {
  readonly row: Row;
  readonly id: string;
  readonly serial: string;
  readonly family: FamilyRow;
  readonly ownerId: string;
  readonly ownerName: string;
  /** What sits in each place now. */
  readonly fitted: Map<string, Row>;
  /** The shim that is in each valve, mm, where it was measured once. */
  readonly shims: Map<string, number>;
  custody: Row | null;
}

export interface Tray {
  readonly id: string;
  readonly row: Row;
  readonly label: string;
  custody: Row | null;
}

/** One visit while it is told: the rows that still change, and what the next act needs to know. */
export interface Visit {
  readonly world: World;
  readonly engine: Engine;
  readonly job: Row;
  readonly jobId: string;
  readonly number: number;
  readonly minutes: number;
  readonly revision: RevisionRow;
  readonly trays: Map<string, Tray>;
}

export type Holder =
  | { readonly person: PersonKey; readonly in: BayKey }
  | { readonly bay: BayKey }
  | { readonly vendor: VendorKey }
  | { readonly owner: string };

export interface Act {
  readonly at: Instant;
  readonly by: PersonKey;
}

const terminalOf: Readonly<Record<PersonKey, string>> = {
  nadia: 'measuring',
  bea: 'measuring',
  oskar: 'strip',
  tomasz: 'assembly',
  maren: 'counter',
  idris: 'counter',
  hetty: 'stores',
};

export function tell(visit: Visit, kind: string, act: Act, data: Readonly<Record<string, unknown>> = {}): void {
  visit.world.events.push({
    at: act.at,
    kind,
    actor: act.by,
    terminal: terminalOf[act.by],
    engine: visit.engine.row,
    jobId: visit.jobId,
    data,
  });
}

export function addOwner(world: World, name: string, contact: string): string {
  const id = world.id('owner', world.origin);
  world.rows.add('owner', { id, name, contact, added_at: isoOf(world.origin) });
  return id;
}

export function addEngine(
  world: World,
  of: {
    readonly family: FamilyCode;
    readonly serial: string;
    readonly owner: readonly [id: string, name: string];
    readonly at: Instant;
    readonly note?: string;
  },
): Engine {
  const id = world.id('engine', of.at);
  const family = known(world.families, of.family);
  const row = world.rows.add('engine', {
    id,
    serial: of.serial,
    family_id: family.id,
    owner_id: of.owner[0],
    note: of.note ?? '',
    added_at: isoOf(of.at),
    event_count: 0,
  });
  return {
    row,
    id,
    serial: of.serial,
    family,
    ownerId: of.owner[0],
    ownerName: of.owner[1],
    fitted: new Map(),
    shims: new Map(),
    custody: null,
  };
}

export interface TakeIn extends Act {
  readonly number: number;
  readonly hours: number;
  readonly complaint: string;
  readonly wishes?: string;
  readonly bay: BayKey;
  /** Index of the sheet's revision; left out: the newest. */
  readonly revision?: number;
}

const hoursText = (minutes: number): string => `${Math.floor(minutes / 60)}.${Math.floor((minutes % 60) / 6)}`;

export function takeIn(world: World, engine: Engine, of: TakeIn): Visit {
  const jobId = world.id('job', of.at);
  const minutes = Math.round(of.hours * 60);
  const { revisions } = engine.family;
  const revision = there(of.revision === undefined ? revisions.at(-1) : revisions[of.revision], 'a sheet');
  const job = world.rows.add('job', {
    id: jobId,
    number: of.number,
    engine_id: engine.id,
    revision_id: revision.id,
    running_minutes: minutes,
    complaint: of.complaint,
    wishes: of.wishes ?? '',
    taken_in_by_id: known(world.people, of.by),
    taken_in_at: isoOf(of.at),
    handed_back_by_id: null,
    handed_back_at: null,
    handed_back_note: '',
    version: 1,
  });
  const visit: Visit = { world, engine, job, jobId, number: of.number, minutes, revision, trays: new Map() };
  for (const place of revision.sheet.places) {
    if (!engine.fitted.has(place.code)) fitPart(visit, { place: place.code, at: of.at, first: true });
  }
  moveEngine(visit, { bay: of.bay }, of, 'taken in');
  tell(visit, 'engine.taken-in', of, {
    number: of.number,
    hours: hoursText(minutes),
    bay: bayName(of.bay),
    complaint: of.complaint,
  });
  return visit;
}

/** Puts a part in a place; what sat there is taken out at that instant. */
export function fitPart(
  visit: Visit,
  of: {
    readonly place: string;
    readonly at: Instant;
    readonly first?: boolean;
    readonly sizeClass?: string;
    readonly grade?: string;
    readonly mark?: string;
  },
): Row {
  const { world, engine } = visit;
  const old = engine.fitted.get(of.place);
  if (old !== undefined) {
    old.removed_at = isoOf(of.at);
    old.removed_job_id = visit.jobId;
  }
  const place = there(
    visit.revision.sheet.places.find(({ code }) => code === of.place),
    `the place ${of.place}`,
  );
  const row = world.rows.add('fitted_part', {
    id: world.id('fitted_part', of.at),
    engine_id: engine.id,
    place_code: of.place,
    name: place.name,
    size_class: of.sizeClass ?? 'standard',
    grade: of.grade ?? '',
    mark: of.mark ?? '',
    fitted_job_id: of.first ? null : visit.jobId,
    fitted_at: isoOf(of.at),
    fitted_minutes: of.first ? 0 : visit.minutes,
    removed_job_id: null,
    removed_at: null,
  });
  engine.fitted.set(of.place, row);
  return row;
}

export const bayName = (bay: BayKey): string =>
  ({
    strip: 'Bay 1',
    measuring: 'Bay 2',
    head: 'Bay 3',
    assembly: 'Bay 4',
    'run-up': 'Bay 5',
    wash: 'Wash corner',
    rack: 'Rack',
  })[bay];

function custodyRow(
  visit: Visit,
  subject: { readonly engine_id: string | null; readonly tray_id: string | null },
  of: { readonly to: Holder; readonly act: Act; readonly reason: string; readonly handoverId: string | null },
): Row {
  const { world } = visit;
  const { to } = of;
  const placeKey = 'person' in to ? to.in : 'bay' in to ? to.bay : null;
  return world.rows.add('custody', {
    id: world.id('custody', of.act.at),
    ...subject,
    person_id: 'person' in to ? known(world.people, to.person) : null,
    rest_bay_id: 'bay' in to ? known(world.bays, to.bay) : null,
    vendor_id: 'vendor' in to ? known(world.vendors, to.vendor) : null,
    owner_id: 'owner' in to ? to.owner : null,
    place_id: placeKey === null ? null : known(world.bays, placeKey),
    from_at: isoOf(of.act.at),
    until_at: null,
    handover_id: of.handoverId,
    reason: of.reason,
    moved_by_id: known(world.people, of.act.by),
  });
}

export function moveEngine(visit: Visit, to: Holder, act: Act, reason: string, handoverId: string | null = null): void {
  const { engine } = visit;
  if (engine.custody !== null) engine.custody.until_at = isoOf(act.at);
  engine.custody = custodyRow(visit, { engine_id: engine.id, tray_id: null }, { to, act, reason, handoverId });
}

export function moveTray(
  visit: Visit,
  tray: Tray,
  of: { readonly to: Holder; readonly act: Act; readonly reason: string; readonly handoverId?: string },
): void {
  if (tray.custody !== null) tray.custody.until_at = isoOf(of.act.at);
  tray.custody = custodyRow(visit, { engine_id: null, tray_id: tray.id }, { ...of, handoverId: of.handoverId ?? null });
}

export function makeTray(
  visit: Visit,
  of: { readonly name: string; readonly to: Holder; readonly act: Act; readonly alone?: 'head' | 'cylinder' },
): Tray {
  const { world } = visit;
  const id = world.id('tray', of.act.at);
  const label = `${String(visit.number).slice(-2)}·${visit.trays.size + 1}`;
  const row = world.rows.add('tray', {
    id,
    job_id: visit.jobId,
    label,
    name: of.name,
    alone: of.alone !== undefined,
    layer: of.alone ?? null,
    made_at: isoOf(of.act.at),
    emptied_at: null,
  });
  const tray: Tray = { id, row, label, custody: null };
  visit.trays.set(of.name, tray);
  moveTray(visit, tray, { to: of.to, act: of.act, reason: 'tray made' });
  tell(visit, 'tray.made', of.act, { label, name: of.name, alone: of.alone !== undefined });
  return tray;
}

export function emptyTray(tray: Tray, at: Instant): void {
  if (tray.custody === null) return;
  tray.row.emptied_at = isoOf(at);
  tray.custody.until_at = isoOf(at);
  tray.custody = null;
}

/** The engine, and the trays that lie with it, taken by a person or left at rest. */
export function moveWithTrays(
  visit: Visit,
  to: Holder,
  act: Act,
  of: { readonly reason: string; readonly trays?: readonly string[] },
): void {
  moveEngine(visit, to, act, of.reason);
  for (const tray of traysHere(visit, of.trays)) moveTray(visit, tray, { to, act, reason: of.reason });
  const kind = 'person' in to ? 'custody.taken' : 'bay' in to ? 'custody.left' : 'custody.moved';
  const bay = 'person' in to ? bayName(to.in) : 'bay' in to ? bayName(to.bay) : undefined;
  tell(visit, kind, act, { what: 'the engine', ...(bay === undefined ? {} : { bay }), differences: [] });
}

export const traysHere = (visit: Visit, names?: readonly string[]): readonly Tray[] =>
  [...visit.trays]
    .filter(([name, tray]) => tray.custody !== null && (names === undefined || names.includes(name)))
    .map(([, tray]) => tray);

export function assignBay(visit: Visit, bay: BayKey, act: Act): void {
  const { world } = visit;
  world.rows.add('bay_assignment', {
    id: world.id('bay_assignment', act.at),
    job_id: visit.jobId,
    bay_id: known(world.bays, bay),
    assigned_by_id: known(world.people, act.by),
    assigned_at: isoOf(act.at),
  });
  tell(visit, 'bay.assigned', act, { bay: bayName(bay) });
}

export function promise(visit: Visit, readyOn: string, act: Act, sureOf5 = 4): void {
  const { world } = visit;
  world.rows.add('promise', {
    id: world.id('promise', act.at),
    job_id: visit.jobId,
    ready_on: readyOn,
    sure_of_5: sureOf5,
    note: '',
    made_by_id: known(world.people, act.by),
    made_at: isoOf(act.at),
  });
  tell(visit, 'promise.made', act, { readyOn, sureOf5, note: '' });
}

export function handBack(visit: Visit, act: Act): void {
  const { job, engine, world } = visit;
  job.handed_back_at = isoOf(act.at);
  job.handed_back_by_id = known(world.people, act.by);
  for (const tray of traysHere(visit)) emptyTray(tray, act.at);
  moveEngine(visit, { owner: engine.ownerId }, act, 'handed back');
  tell(visit, 'engine.handed-back', act, { number: visit.number, trays: [], overridden: [] });
}
