import type { ClosingCheck } from '#contracts/searches.ts';
import { blindTrays, refuseWhileOffered } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { type CheckRow, findCheckLines, insertCheck } from './check-queries.ts';
import { lockOpenOpening } from './open-opening.ts';
import { findOpening } from './queries.ts';

const isOpen = ({ open, doneBy }: CheckRow): boolean => open > 0 || doneBy.length === 0;

function wordsOf(row: CheckRow): string {
  const said = [
    row.fitted > 0 ? `${row.fitted} back on` : '',
    row.renewed > 0 ? `${row.renewed} renewed` : '',
    row.accounted > 0 ? `${row.accounted} accounted for` : '',
    row.cameOut > 0 ? `${row.cameOut} came out` : '',
    row.open > 0 ? `${row.open} still open` : '',
    row.swapped.length > 0 ? `places changed: ${row.swapped.join(', ')}` : '',
  ];
  return said.filter((words) => words !== '').join(', ');
}

const isBlind = (row: CheckRow, blind: ReadonlySet<string>): boolean => row.trayIds.some((trayId) => blind.has(trayId));

/** The trays are told even while they are counted blind: what lies in them is not. */
const lyingOf = ({ lying }: CheckRow, hidden: boolean): ClosingCheck['lines'][number]['lying'] =>
  lying.map(({ trayId, label, count, places }) => ({
    tray: trayId === null ? null : { id: trayId, name: label ?? '' },
    count: hidden ? null : count,
    places: hidden ? null : [...places],
  }));

function checkOf(openingId: string, rows: readonly CheckRow[], blind: ReadonlySet<string>): ClosingCheck {
  const next = rows.find(({ tickedById }) => tickedById === null)?.id;
  return {
    openingId,
    lines: rows.map((row) => ({
      id: row.id,
      kind: row.kind,
      name: row.name,
      words: isBlind(row, blind) ? null : wordsOf(row),
      lying: lyingOf(row, isBlind(row, blind)),
      ready: !isOpen(row),
      doneBy: [...row.doneBy],
      ticked:
        row.tickedById === null || row.tickedAt === null
          ? null
          : { by: { id: row.tickedById, name: row.tickedBy ?? '' }, at: row.tickedAt },
      next: row.id === next,
    })),
    left: rows.filter(({ tickedById }) => tickedById === null).length,
  };
}

/** The closing check: the tally in reverse order of removal, with who worked on each line and who has seen it. */
export async function getCheck(
  sql: Sql,
  of: { readonly id: string; readonly viewerId: string },
): Promise<ClosingCheck> {
  const opening = found(await findOpening(sql, of.id), 'such opening');
  const blind = await blindTrays(sql, { jobId: opening.jobId, viewerId: of.viewerId });
  return checkOf(opening.id, await findCheckLines(sql, opening.id), blind);
}

interface Ticking {
  readonly next: CheckRow | undefined;
  readonly byId: string;
  readonly blind: ReadonlySet<string>;
}

function refuseWrongTick(row: CheckRow, { next, byId, blind }: Ticking): void {
  if (row.tickedById !== null)
    throw new ProblemError('already-done', `${row.name}: ${row.tickedBy ?? ''} has checked it.`);
  if (next !== undefined && next.id !== row.id) {
    throw new ProblemError('refused', `In reverse order of removal: ${next.name} comes before ${row.name}.`);
  }
  if (isOpen(row)) {
    const so = isBlind(row, blind) ? 'some are still open' : wordsOf(row);
    throw new ProblemError('refused', `${row.name}: ${so}. It is checked once it is settled.`);
  }
  if (row.doneBy.some(({ id }) => id === byId)) {
    throw new ProblemError('not-allowed', `${row.name}: you worked on it yourself. Another person looks and ticks it.`);
  }
}

/** Ticks lines of the closing check, in their order, by another person than who worked on each. */
export async function tickLines(
  act: Act,
  asked: { readonly id: string; readonly lines: readonly string[] },
): Promise<ClosingCheck> {
  const opening = await lockOpenOpening(act, asked.id);
  await refuseWhileOffered(act, { engineId: opening.engineId });
  const rows = await findCheckLines(act.sql, opening.id);
  const byId = act.actor.id;
  const blind = await blindTrays(act.sql, { jobId: opening.jobId, viewerId: byId });
  const done = new Set<string>();
  for (const id of asked.lines) {
    const row = found(
      rows.find((line) => line.id === id),
      'such line in this closing check',
    );
    if (done.has(id)) throw new ProblemError('refused', `${row.name} is ticked twice in one go.`);
    const next = rows.find((line) => line.tickedById === null && !done.has(line.id));
    refuseWrongTick(row, { next, byId, blind });
    const [pieceId, putInId] = row.kind === 'piece' ? [id, null] : [null, id];
    await insertCheck(act.sql, { openingId: opening.id, pieceId, putInId, byId });
    done.add(id);
  }
  const names = rows.filter(({ id }) => done.has(id)).map(({ name }) => name);
  await act.event('closing.checked', {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: { openingId: opening.id, lines: names.slice(0, 40), count: names.length },
  });
  return getCheck(act.sql, { id: opening.id, viewerId: byId });
}
