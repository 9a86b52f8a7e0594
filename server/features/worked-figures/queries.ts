import type { WorkedFigure } from '#contracts/worked-figures.ts';
import type { Sql } from '#platform/database/client.ts';

export interface NewFigure
  extends Pick<WorkedFigure, 'id' | 'kind' | 'given' | 'figures' | 'rows' | 'cautions' | 'note'> {
  readonly jobId: string;
  readonly byId: string;
}

export async function insertFigure(sql: Sql, figure: NewFigure): Promise<void> {
  const json = (value: unknown) => sql.json(value as never);
  await sql`
    insert into worked_figure (id, job_id, kind, given, figures, compared, cautions, note, kept_by_id)
    values (${figure.id}, ${figure.jobId}, ${figure.kind}, ${json(figure.given)}, ${json(figure.figures)},
            ${json(figure.rows)}, ${json(figure.cautions)}, ${figure.note}, ${figure.byId})`;
}

interface FigureRow extends Omit<WorkedFigure, 'by' | 'struck'> {
  readonly byId: string;
  readonly by: string;
  readonly struckAt: string | null;
  readonly struckReason: string | null;
  readonly struckById: string | null;
  readonly struckBy: string | null;
}

/** Everything kept with a job, the oldest first; what was struck says so. */
export async function findFigures(sql: Sql, jobId: string): Promise<readonly WorkedFigure[]> {
  const found = await sql<FigureRow[]>`
    select w.id, w.kind, w.given, w.figures, w.compared as rows, w.cautions, w.note, w.kept_at as at,
           p.id as "byId", p.name as by,
           s.struck_at as "struckAt", s.reason as "struckReason", q.id as "struckById", q.name as "struckBy"
    from worked_figure w join person p on p.id = w.kept_by_id
    left join worked_figure_strike s on s.worked_figure_id = w.id left join person q on q.id = s.struck_by_id
    where w.job_id = ${jobId} order by w.kept_at, w.id`;
  return found.map(({ byId, by, struckAt, struckReason, struckById, struckBy, ...figure }) => ({
    ...figure,
    by: { id: byId, name: by },
    struck:
      struckAt === null
        ? null
        : { at: struckAt, reason: struckReason ?? '', by: { id: struckById ?? '', name: struckBy ?? '' } },
  }));
}

export async function findFigureJob(sql: Sql, id: string) {
  const [row] = await sql<{ jobId: string; kind: string; struck: boolean }[]>`
    select w.job_id as "jobId", w.kind,
           exists (select from worked_figure_strike s where s.worked_figure_id = w.id) as struck
    from worked_figure w where w.id = ${id}`;
  return row;
}

export async function insertStrike(sql: Sql, strike: { id: string; reason: string; byId: string }): Promise<void> {
  await sql`
    insert into worked_figure_strike (worked_figure_id, reason, struck_by_id)
    values (${strike.id}, ${strike.reason}, ${strike.byId})`;
}

export async function jobExists(sql: Sql, jobId: string): Promise<{ id: string } | undefined> {
  const [row] = await sql<{ id: string }[]>`select id from job where id = ${jobId}`;
  return row;
}
