import type { EngineEvents, EngineLine, EngineList, EnginePage } from '#contracts/engines.ts';
import { may } from '#contracts/rights.ts';
import { quotesOf } from '#features/counter/service.ts';
import { blindContents, blindTraysAndPieces, type ShownWords, wordsShownTo } from '#features/custody/service.ts';
import { lengthOf, standingOf } from '#features/floor/service.ts';
import { hoursOf } from '#features/intake/service.ts';
import { type Sheet, specOf, standardClass } from '#features/specs/service.ts';
import type { Actor } from '#platform/act.ts';
import type { Database, Sql } from '#platform/database/client.ts';
import { instantFromJson as instant } from '#platform/database/types.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { factsShown } from './blind-events.ts';
import { boreMapOf, mappedDimensions } from './bore-map.ts';
import { type FindingRow, findBoreReadings, findFindings } from './finding-queries.ts';
import { measuredBySheet } from './measured.ts';
import { findPage, type PageRows } from './page-queries.ts';
import { engineExists, findEngines, findEvents, type LineRow } from './queries.ts';
import { findLashWithShims } from './valve-seat-queries.ts';
import { valveSeats } from './valve-seats.ts';
import { wearHistories } from './wear.ts';

const PAGE = 50;

const instantOrNull = (text: string | null): string | null => (text === null ? null : instant(text));

function lineOf(row: LineRow): EngineLine {
  const { jobId, number, minutes, takenInAt, handedBackAt, holderKind, holderId, since, placeId } = row;
  const visited = jobId !== null && number !== null && minutes !== null && takenInAt !== null;
  const held = holderKind !== null && holderId !== null && since !== null;
  return {
    id: row.id,
    serial: row.serial,
    family: { id: row.familyId, code: row.code, name: row.family },
    owner: { id: row.ownerId, name: row.owner },
    visits: row.visits,
    lastVisit: visited ? { jobId, number, hours: hoursOf(minutes), takenInAt, handedBackAt } : null,
    holder: held ? { kind: holderKind, id: holderId, name: row.holder ?? '', since } : null,
    place: placeId === null ? null : { id: placeId, name: row.place ?? '' },
  };
}

interface ListAsked {
  readonly search?: string | undefined;
  readonly state?: 'in-shop' | 'all' | undefined;
  readonly after?: string | undefined;
  readonly limit?: number | undefined;
}

/** Engines by serial. The last serial of a page is where the next one goes on: engines added meanwhile move nothing. */
export async function listEngines(sql: Sql, asked: ListAsked): Promise<EngineList> {
  const limit = asked.limit ?? PAGE;
  const rows = await findEngines(sql, {
    search: asked.search?.trim() ?? '',
    inShop: asked.state !== 'all',
    after: asked.after ?? null,
    limit,
  });
  const items = rows.slice(0, limit).map(lineOf);
  return { items, next: rows.length > limit ? (items.at(-1)?.serial ?? null) : null };
}

/**
 * What happened to an engine, newest first. Events carry no sums, so everyone signed in may read them; counts of a tray
 * that the viewer is yet to count themselves are left out.
 */
export async function eventsOf(
  sql: Sql,
  asked: {
    readonly engineId: string;
    readonly viewerId: string;
    readonly after?: string | undefined;
    readonly limit?: number | undefined;
  },
): Promise<EngineEvents> {
  if (asked.after !== undefined && !/^\d{1,15}$/.test(asked.after)) {
    throw new ProblemError('invalid-request', 'Pass as "after" the "next" of the page before, unchanged.');
  }
  if (!(await engineExists(sql, asked.engineId))) throw new ProblemError('not-found', 'There is no such engine.');
  const limit = asked.limit ?? PAGE;
  const before = asked.after === undefined ? null : Number(asked.after);
  const rows = await findEvents(sql, { engineId: asked.engineId, before, limit });
  const blind = await blindContents(sql, { engineId: asked.engineId, viewerId: asked.viewerId });
  const items = rows.slice(0, limit).map((row) => ({
    id: row.id,
    number: row.number,
    kind: row.kind,
    happenedAt: row.happenedAt,
    recordedAt: row.recordedAt,
    actor: row.actorId === null ? null : { id: row.actorId, name: row.actor ?? '' },
    terminal: row.terminalId === null ? null : { id: row.terminalId, name: row.terminal ?? '' },
    job: row.jobId === null || row.jobNumber === null ? null : { id: row.jobId, number: row.jobNumber },
    data: factsShown(row.data, blind),
  }));
  return { items, next: rows.length > limit ? String(items.at(-1)?.number ?? 0) : null };
}

type PageJob = NonNullable<EnginePage['job']>;

function jobOf({ job, visits }: PageRows): PageJob | null {
  if (job === null) return null;
  const { minutes, promise, ...facts } = job;
  return {
    ...facts,
    visit: visits.length - visits.findIndex(({ jobId }) => jobId === job.id),
    hours: hoursOf(minutes),
    takenInAt: instant(job.takenInAt),
    handedBackAt: instantOrNull(job.handedBackAt),
    promise: promise === null ? null : { ...promise, madeAt: instant(promise.madeAt) },
  };
}

const visitsOf = ({ visits }: PageRows): EnginePage['visits'] =>
  visits.map(({ minutes, ...visit }, index) => ({
    ...visit,
    visit: visits.length - index,
    hours: hoursOf(minutes),
    takenInAt: instant(visit.takenInAt),
    handedBackAt: instantOrNull(visit.handedBackAt),
  }));

const partsOf = ({ parts }: PageRows): EnginePage['fittedParts'] =>
  parts.map(({ fittedMinutes, ...part }) => ({
    ...part,
    fittedAt: instant(part.fittedAt),
    fittedHours: hoursOf(fittedMinutes),
  }));

const heldSince = <Held extends { readonly since: string }>(holder: Held | null): Held | null =>
  holder === null ? null : { ...holder, since: instant(holder.since) };

/** Trays as a viewer may read them: of a line that lies in a blind tray too, the sums would tell what is in that one. */
function traysOf({ trays }: PageRows, blind: ReadonlySet<string>): EnginePage['trays'] {
  const withoutSums = { expected: null, off: null, back: null };
  return trays.map((tray) => ({
    ...tray,
    emptiedAt: instantOrNull(tray.emptiedAt),
    holder: heldSince(tray.holder),
    pieces: tray.pieces.map((piece) => {
      if (!blind.has(piece.id)) return piece;
      return { ...piece, ...withoutSums, here: blind.has(tray.id) ? null : piece.here };
    }),
  }));
}

const obligationsOf = ({ obligations }: PageRows, shown: ShownWords): EnginePage['obligations'] =>
  obligations.map(({ decision, discharge, ...obligation }) => ({
    ...obligation,
    words: shown(obligation.id, obligation.words),
    openedAt: instant(obligation.openedAt),
    decision: decision === null ? null : { ...decision, at: instant(decision.at) },
    discharge: discharge === null ? null : { ...discharge, at: instant(discharge.at) },
  }));

async function boreMapsOf(
  sql: Sql,
  sheet: Sheet,
  of: { readonly rows: readonly FindingRow[]; readonly jobId: string },
): Promise<EnginePage['boreMaps']> {
  const ofVisit = of.rows.filter(({ jobId }) => jobId === of.jobId);
  const newest = mappedDimensions(sheet).flatMap((dimension) => {
    const finding = ofVisit.findLast((row) => row.dimension === dimension.code && row.valueType === 'point');
    return finding === undefined ? [] : [{ dimension, finding }];
  });
  const readings = await findBoreReadings(
    sql,
    newest.map(({ finding }) => finding.id),
  );
  return newest.map(({ dimension, finding }) =>
    boreMapOf(dimension, sheet, {
      finding,
      readings: readings.filter(({ findingId }) => findingId === finding.id),
      beside: ofVisit.filter(({ round }) => round === finding.round),
    }),
  );
}

type MeasuredFacts = Pick<EnginePage, 'measured' | 'boreMaps' | 'wear'>;

async function measuredFacts(sql: Sql, page: PageRows): Promise<MeasuredFacts> {
  if (page.job === null) return { measured: [], boreMaps: [], wear: [] };
  const jobId = page.job.id;
  const [sheet, rows, lash] = await Promise.all([
    specOf(sql, page.job.revision.id),
    findFindings(sql, page.title.id),
    findLashWithShims(sql, page.title.id),
  ]);
  const fittedNow = new Set(page.parts.map(({ id }) => id));
  const classes = new Map(page.parts.map(({ place, sizeClass }) => [place, sizeClass]));
  return {
    measured: measuredBySheet(sheet, { rows, jobId, sizeClassOf: (place) => classes.get(place) ?? standardClass }),
    boreMaps: await boreMapsOf(sql, sheet, { rows, jobId }),
    wear: [...wearHistories(rows, fittedNow), ...valveSeats(lash, fittedNow)],
  };
}

/** Everything an engine's page shows. Quotes only for whoever has the right to money. */
export async function enginePage(
  { sql, prisma }: Database,
  of: { readonly engineId: string; readonly viewer: Actor },
): Promise<EnginePage> {
  const page = found(await findPage(sql, of.engineId), 'such engine');
  const { title, job } = page;
  const ofEngine = { engineId: title.id, viewerId: of.viewer.id };
  const [standing, facts, quotes, blind, shown] = await Promise.all([
    standingOf(sql, ofEngine),
    measuredFacts(sql, page),
    job !== null && may(of.viewer.roles, 'money') ? quotesOf(prisma, job.id) : undefined,
    job === null ? new Set<string>() : blindTraysAndPieces(sql, { jobId: job.id, viewerId: of.viewer.id }),
    wordsShownTo(sql, ofEngine),
  ]);
  const visits = visitsOf(page);
  return {
    id: title.id,
    serial: title.serial,
    family: { ...title.family, bore: lengthOf(title.family.bore), stroke: lengthOf(title.family.stroke) },
    owner: title.owner,
    note: title.note,
    hours: visits[0]?.hours ?? null,
    holder: heldSince(title.holder),
    place: title.place,
    job: jobOf(page),
    standing: standing ?? null,
    fittedParts: partsOf(page),
    ...facts,
    obligations: obligationsOf(page, shown),
    trays: traysOf(page, blind),
    runs: page.runs.map((run) => ({ ...run, startedAt: instant(run.startedAt) })),
    quotes: may(of.viewer.roles, 'money') ? (quotes?.items ?? []) : null,
    visits,
  };
}
