import { printOf, rounded, roundedDifference } from '#contracts/figures.ts';
import type { EngineStanding, Floor, Wait } from '#contracts/floor.ts';
import { rights } from '#contracts/rights.ts';
import { type ShownWords, wordsShownTo } from '#features/custody/service.ts';
import { outlookOf } from '#features/stores/promising/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { instantFromJson as instant } from '#platform/database/types.ts';
import { found } from '#platform/problem.ts';
import { guardOf, lengthOf, measuredValue } from './measured-value.ts';
import { type FloorRows, findFloor, findStanding, type StandingRows } from './queries.ts';
import type { EngineRow, FindingRow, HandoverRow, PartsRow, WaitRow } from './rows.ts';

export { guardOf, lengthOf, measuredValue } from './measured-value.ts';

function groupedBy<Item, Key>(items: readonly Item[], keyOf: (item: Item) => Key): ReadonlyMap<Key, readonly Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

const named = (id: string | null, name: string | null) => (id === null || name === null ? null : { id, name });

function endedBy({ endsKind, endsId, endsName }: WaitRow): Wait['endedBy'] {
  if (endsKind !== 'right') return { kind: endsKind, id: found(endsId, 'one who can end this wait'), name: endsName };
  return {
    kind: 'right',
    right: found(
      rights.find((right) => right === endsName),
      `right to ${endsName}`,
    ),
  };
}

const waitOf = (row: WaitRow, shown: ShownWords): Wait => ({
  waitsFor: row.waitsFor,
  since: instant(row.since),
  dueOn: row.dueOn,
  words: row.cause === 'obligation' ? shown(row.causeId, row.words) : row.words,
  cause: { kind: row.cause, id: row.causeId },
  endedBy: endedBy(row),
});

function holderOf({ holderKind, holderId, holder, since }: EngineRow): EngineStanding['holder'] {
  if (holderKind === null || holderId === null || since === null) return null;
  return { kind: holderKind, id: holderId, name: holder ?? '', since: instant(since) };
}

function openingOf({ openingId, openedAt, depth, covered, coveredSince }: EngineRow): EngineStanding['opening'] {
  if (openingId === null || openedAt === null || depth === null || coveredSince === null) return null;
  return {
    id: openingId,
    openSince: instant(openedAt),
    depth,
    covered: covered === true,
    coveredOrNotSince: instant(coveredSince),
  };
}

const handoverOf = (row: HandoverRow) => ({
  id: row.id,
  giver: { id: row.giverId, name: row.giver },
  receiver: { id: row.receiverId, name: row.receiver },
  offeredAt: instant(row.offeredAt),
  answerDueAt: instant(row.answerDueAt),
  ofTheEngine: row.ofTheEngine,
});

function standingsOf({ engines, waits, handovers }: StandingRows, shown: ShownWords): EngineStanding[] {
  const waitsBy = groupedBy(waits, ({ engineId }) => engineId);
  const handoversBy = groupedBy(handovers, ({ engineId }) => engineId);
  return engines.map((row) => ({
    id: row.id,
    serial: row.serial,
    family: {
      id: row.familyId,
      code: row.code,
      name: row.family,
      cycle: row.cycle,
      cooling: row.cooling,
      bore: lengthOf(row.bore),
      stroke: lengthOf(row.stroke),
    },
    owner: { id: row.ownerId, name: row.owner },
    job: { id: row.jobId, number: row.number, takenInAt: instant(row.takenInAt) },
    holder: holderOf(row),
    place: named(row.placeId, row.place),
    assignedBay: named(row.assignedId, row.assigned),
    opening: openingOf(row),
    waits: (waitsBy.get(row.id) ?? []).map((wait) => waitOf(wait, shown)),
    promise: row.readyOn === null || row.sureOf5 === null ? null : { readyOn: row.readyOn, sureOf5: row.sureOf5 },
    handovers: (handoversBy.get(row.id) ?? []).map(handoverOf),
  }));
}

const partsWaitOf = ({
  engineId,
  jobId,
  demandLineId,
  partId,
  number,
  name,
  instead = [],
  rule = '',
  ...row
}: PartsRow) => ({
  engineId,
  jobId,
  demandLineId,
  part: { id: partId, number, name },
  short: row.short,
  wanted: row.wanted,
  since: instant(row.since),
  dueOn: row.dueOn,
  instead: [...instead],
  rule,
});

const pastOrUndecidedOf = (row: FindingRow): Floor['pastOrUndecided'][number] => ({
  engineId: row.engineId,
  jobId: row.jobId,
  findingId: row.findingId,
  dimension: row.dimension,
  name: row.name,
  round: row.round,
  verdict: row.verdict,
  value: measuredValue(row),
  guard: guardOf(row.guard, printOf(row)),
  limit: row.side === null || row.limit === null ? null : { side: row.side, value: rounded(row.limit, printOf(row)) },
  pastBy:
    row.margin !== null && row.margin < 0 && row.valueType !== 'felt'
      ? roundedDifference(-row.margin, printOf(row))
      : null,
  pPast: { low: row.pLow, high: row.pHigh },
  judgedAt: instant(row.judgedAt),
  obligation: row.obligationId === null ? null : { id: row.obligationId, decided: row.decided, settled: row.settled },
});

const NOTES = 8;

/** What comes next, by day: dates promised to owners, deliveries, work due back. */
function notesOf(engines: readonly EngineStanding[], { arrivals }: FloorRows): Floor['notes'] {
  const promises = engines.flatMap(({ id, serial, family, job, promise, waits }) =>
    promise === null
      ? []
      : [
          {
            kind: 'promise' as const,
            on: promise.readyOn,
            jobId: job.id,
            engine: { id, family: family.name, serial },
            vendor: null,
            words: '',
            quantity: null,
            waits: waits.length,
          },
        ],
  );
  const coming = arrivals.map(({ kind, on, jobId, engineId, family, serial, vendorId, vendor, words, quantity }) => ({
    kind,
    on,
    jobId,
    engine: engineId === null ? null : { id: engineId, family: family ?? '', serial: serial ?? '' },
    vendor: { id: vendorId, name: vendor },
    words,
    quantity,
    waits: 0,
  }));
  return [...promises, ...coming].toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0)).slice(0, NOTES);
}

function openNowOf(engines: readonly EngineStanding[]): Floor['openNow'] {
  return engines
    .flatMap(({ id, opening }) => (opening === null ? [] : [{ engineId: id, openSince: opening.openSince }]))
    .toSorted((a, b) => (a.openSince < b.openSince ? -1 : 1));
}

const idsOf = (engines: readonly EngineStanding[]): string[] => engines.map(({ id }) => id);

/**
 * Of waits for parts the day by which they can be here in the turn of their job among all that wait for the same; a day
 * that has passed is still told, as late.
 */
async function withTheirTurn<Rows extends StandingRows & { readonly parts?: readonly PartsRow[] }>(
  sql: Sql,
  rows: Rows,
): Promise<Rows> {
  const waiting = new Set(rows.waits.filter(({ cause }) => cause === 'demand').map(({ engineId }) => engineId));
  if (waiting.size === 0) return rows;
  const jobIds = rows.engines.filter(({ id }) => waiting.has(id)).map(({ jobId }) => jobId);
  const { today, byLine } = await outlookOf(sql, jobIds);
  const dueOn = (lineId: string, was: string | null): string | null =>
    byLine.get(lineId)?.on ?? (was !== null && was < today ? was : null);
  return {
    ...rows,
    waits: rows.waits.map((row) => (row.cause === 'demand' ? { ...row, dueOn: dueOn(row.causeId, row.dueOn) } : row)),
    ...(rows.parts === undefined
      ? {}
      : {
          parts: rows.parts.map((row) => ({
            ...row,
            dueOn: dueOn(row.demandLineId, row.dueOn),
            instead: byLine.get(row.demandLineId)?.from.map(({ number }) => number) ?? [],
            rule: byLine.get(row.demandLineId)?.rule ?? '',
          })),
        }),
  };
}

/** What the floor is told from: the same for whoever looks. */
export async function floorFacts(sql: Sql): Promise<FloorRows> {
  return withTheirTurn(sql, found(await findFloor(sql), 'floor yet'));
}

/** The whole floor, derived from the facts as of one instant; `facts` answers those. */
export async function floorNow(sql: Sql, viewerId: string, facts: () => Promise<FloorRows>): Promise<Floor> {
  const [rows, shown] = await Promise.all([facts(), wordsShownTo(sql, { viewerId })]);
  const { asOf, today, ...shop } = found(rows.shop, 'shop yet');
  const engines = standingsOf(rows, shown);
  const byBay = groupedBy(engines, ({ place }) => place?.id);
  const outside = engines.filter(({ holder }) => holder?.kind === 'vendor');
  const unheld = engines.filter(({ holder }) => holder === null);
  return {
    asOf: instant(asOf),
    today,
    shop,
    bays: rows.bays.map(({ id, name, kind, capacity, ...grid }) => ({
      id,
      name,
      kind,
      capacity,
      grid,
      engineIds: idsOf(byBay.get(id) ?? []),
    })),
    outside: idsOf(outside),
    heldByNobody: idsOf(unheld),
    engines,
    openNow: openNowOf(engines),
    waitingForParts: rows.parts.map(partsWaitOf),
    pastOrUndecided: rows.findings.map(pastOrUndecidedOf),
    notes: notesOf(engines, rows),
    counts: {
      engines: engines.length,
      outside: outside.length,
      open: engines.filter(({ opening }) => opening !== null).length,
      uncovered: engines.filter(({ opening }) => opening?.covered === false).length,
      handoversOffered: rows.handovers.length,
      heldByNobody: unheld.length + rows.unheldTrays,
    },
  };
}

/** Where an engine's open job stands; undefined when it isn't in the shop. */
export async function standingOf(
  sql: Sql,
  of: { readonly engineId: string; readonly viewerId: string },
): Promise<EngineStanding | undefined> {
  const [standing, shown] = await Promise.all([findStanding(sql, of.engineId), wordsShownTo(sql, of)]);
  return standingsOf(await withTheirTurn(sql, found(standing, 'standing')), shown)[0];
}
