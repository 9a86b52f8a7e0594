import { createHash } from 'node:crypto';
import type { CustodyRule, ShiftEnd, ShiftReport, ShiftSnapshot, SignShift } from '#contracts/custody-past.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findAnswerMinutes,
  findReport,
  findReports,
  findShiftEnd,
  insertReport,
  insertRule,
  type ReportRow,
} from './shift-queries.ts';

const headOf = ({ id, asOf, note, signedById, signedBy, signedAt }: ReportRow) => ({
  id,
  asOf,
  note,
  signedBy: { id: signedById, name: signedBy },
  signedAt,
});

/** A mark of what a report says: as long as it is the same, nothing has changed since it was read. */
const markOf = (snapshot: ShiftSnapshot): string =>
  createHash('sha256').update(JSON.stringify(snapshot)).digest('hex').slice(0, 32);

/** Whether nothing stays with anybody, unanswered, uncovered or unheld. */
const isClear = ({ items, unheld, offers, uncovered }: ShiftSnapshot): boolean =>
  unheld.length === 0 &&
  offers.length === 0 &&
  uncovered.length === 0 &&
  items.every(({ holder }) => holder.kind !== 'person');

/** How the shop stands at the end of a shift: who still holds what, what is unheld, unanswered, uncovered. */
export async function shiftEnd(sql: Sql): Promise<ShiftEnd> {
  const { asOf, snapshot } = await findShiftEnd(sql);
  const [last] = await findReports(sql, 1);
  return {
    asOf,
    snapshot,
    mark: markOf(snapshot),
    clear: isClear(snapshot),
    last: last === undefined ? null : headOf(last),
  };
}

/** A lead signs what was read; refused when it changed since, and without a word about what stays. */
export async function signShift(act: Act, { mark, note = '' }: SignShift): Promise<{ id: string }> {
  const { asOf, snapshot } = await findShiftEnd(act.sql);
  if (markOf(snapshot) !== mark) {
    throw new ProblemError('changed-meanwhile', 'Something moved since you read the report. Read it again, then sign.');
  }
  const words = note.trim();
  if (!isClear(snapshot) && words === '') {
    throw new ProblemError(
      'refused',
      'Something stays with somebody, unanswered or uncovered. Say in the note what stays and who knows of it.',
      { errors: [{ pointer: '/note', detail: 'is needed while not all is clear' }] },
    );
  }
  const id = await insertReport(act.sql, { asOf, snapshot, note: words, byId: act.actor.id });
  await act.event('shift.signed', {
    data: {
      reportId: id,
      note: words,
      stillHeld: snapshot.items.filter(({ holder }) => holder.kind === 'person').length,
      unheld: snapshot.unheld.length,
      unanswered: snapshot.offers.length,
      uncovered: snapshot.uncovered.length,
    },
  });
  return { id };
}

export async function listReports(sql: Sql) {
  return (await findReports(sql, 100)).map(headOf);
}

export async function getReport(sql: Sql, id: string): Promise<ShiftReport> {
  const row = found(await findReport(sql, id), 'such report');
  return { ...headOf(row), snapshot: row.snapshot };
}

export const getRule = async (sql: Sql): Promise<CustodyRule> => ({ answerMinutes: await findAnswerMinutes(sql) });

/** How long an offer waits before it is shown as overdue. */
export async function setRule(act: Act, rule: CustodyRule): Promise<CustodyRule> {
  await insertRule(act.sql, { ...rule, byId: act.actor.id });
  await act.event('custody.rule', { data: { ...rule } });
  return rule;
}
