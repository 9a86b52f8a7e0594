import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import type { Mark } from './queries.ts';

interface ByWhom {
  readonly runId: string;
  readonly stepId: string;
  readonly byId: string;
}

export async function insertMark(
  sql: Sql,
  of: ByWhom & {
    readonly mark: Mark;
    readonly round: number;
    readonly reason: string;
    readonly noPhoto: string;
  },
): Promise<void> {
  await sql`
    insert into step_mark (id, run_id, step_id, mark, round, reason, no_photo, marked_by_id)
    values (${newId()}, ${of.runId}, ${of.stepId}, ${of.mark}, ${of.round}, ${of.reason}, ${of.noPhoto}, ${of.byId})`;
}

export async function insertRedo(
  sql: Sql,
  of: ByWhom & { readonly round: number; readonly reason: string },
): Promise<void> {
  await sql`
    insert into step_redo (id, run_id, step_id, round, reason, asked_by_id)
    values (${newId()}, ${of.runId}, ${of.stepId}, ${of.round}, ${of.reason}, ${of.byId})`;
}

export async function insertAnswer(
  sql: Sql,
  of: ByWhom & { readonly choice: string; readonly reason: string; readonly supersedesId: string | null },
): Promise<void> {
  await sql`
    insert into run_answer (id, run_id, step_id, choice, reason, supersedes_id, answered_by_id)
    values (${newId()}, ${of.runId}, ${of.stepId}, ${of.choice}, ${of.reason}, ${of.supersedesId}, ${of.byId})`;
}

export async function insertInterruption(
  sql: Sql,
  of: ByWhom & { readonly why: string; readonly loose: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into run_interruption (id, run_id, step_id, why, loose, interrupted_by_id)
    values (${id}, ${of.runId}, ${of.stepId}, ${of.why}, ${of.loose}, ${of.byId})`;
  return id;
}

export async function insertResumption(sql: Sql, of: { interruptionId: string; byId: string }): Promise<void> {
  await sql`
    insert into run_resumption (id, interruption_id, resumed_by_id) values (${newId()}, ${of.interruptionId}, ${of.byId})`;
}
