import { newId } from '#platform/act.ts';
import type { Models, Sql } from '#platform/database/client.ts';

export async function findShopTerms(sql: Sql): Promise<{ currency: string; today: string } | undefined> {
  const [shop] = await sql<{ currency: string; today: string }[]>`
    select currency, (clock_timestamp() at time zone zone)::date as today from shop`;
  return shop;
}

export async function jobExists(db: Models, id: string): Promise<boolean> {
  return (await db.job.count({ where: { id } })) === 1;
}

export async function insertPromise(
  sql: Sql,
  of: { jobId: string; readyOn: string; sureOf5: number; note: string; madeById: string },
): Promise<{ id: string; madeAt: string }> {
  const id = newId();
  const [row] = await sql<{ madeAt: string }[]>`
    insert into promise (id, job_id, ready_on, sure_of_5, note, made_by_id)
    values (${id}, ${of.jobId}, ${of.readyOn}, ${of.sureOf5}, ${of.note}, ${of.madeById}) returning made_at as "madeAt"`;
  return { id, madeAt: row?.madeAt ?? '' };
}

export async function findPromises(db: Models, jobId: string) {
  return db.promise.findMany({
    where: { jobId },
    include: { madeBy: true },
    orderBy: [{ madeAt: 'desc' }, { id: 'desc' }],
  });
}

/** One line as it is kept: sums in whole minor units. */
export interface NewLine {
  readonly kind: string;
  readonly words: string;
  readonly quantity: number;
  readonly eachMinor: number;
  readonly amountMinor: number;
  readonly partId: string | null;
  readonly obligationId: string | null;
}

export interface NewQuote {
  readonly jobId: string;
  readonly currency: string;
  readonly totalMinor: number;
  readonly note: string;
  readonly sentById: string;
  readonly lines: readonly NewLine[];
}

/** The engine's lock is held, so the next number is free. */
export async function insertQuote(sql: Sql, quote: NewQuote): Promise<{ id: string; number: number }> {
  const id = newId();
  const [row] = await sql<{ number: number }[]>`
    insert into quote (id, job_id, number, currency, total_minor, note, sent_by_id)
    select ${id}, ${quote.jobId}, coalesce(max(q.number), 0) + 1, ${quote.currency}, ${quote.totalMinor}, ${quote.note}, ${quote.sentById}
    from quote q where q.job_id = ${quote.jobId} returning number`;
  const lines = quote.lines.map((line, index) => ({
    id: newId(),
    quote_id: id,
    ordinal: index + 1,
    kind: line.kind,
    words: line.words,
    quantity: line.quantity,
    each_minor: line.eachMinor,
    amount_minor: line.amountMinor,
    part_id: line.partId,
    obligation_id: line.obligationId,
  }));
  await sql`insert into quote_line ${sql(lines)}`;
  return { id, number: row?.number ?? 0 };
}

/** Which of these obligations are no obligations of this job. */
export async function findForeignObligations(sql: Sql, jobId: string, ids: readonly string[]): Promise<string[]> {
  const rows = await sql<{ id: string }[]>`
    select asked.id from unnest(${sql.array([...ids])}::uuid[]) as asked (id)
    where not exists (select from obligation o where o.id = asked.id and o.job_id = ${jobId})`;
  return rows.map(({ id }) => id);
}

export async function findQuotes(db: Models, jobId: string) {
  return db.quote.findMany({
    where: { jobId },
    include: {
      quoteLines: { orderBy: { ordinal: 'asc' } },
      sentBy: true,
      quoteAnswer: { include: { takenBy: true } },
    },
    orderBy: { number: 'desc' },
  });
}

export interface OpenQuoteRow {
  readonly jobId: string;
  readonly quoteId: string;
  readonly number: number;
  readonly currency: string;
  readonly totalMinor: number;
  readonly sentAt: string;
  readonly yes: boolean | null;
  readonly sumMinor: number | null;
}

/** The newest quote of every open job. */
export async function findOpenQuotes(sql: Sql): Promise<readonly OpenQuoteRow[]> {
  return sql<OpenQuoteRow[]>`
    select q.job_id as "jobId", q.quote_id as "quoteId", q.number, q.currency::text as currency, q.total_minor as "totalMinor",
           q.sent_at as "sentAt", q.yes, q.sum_minor as "sumMinor"
    from job_quote q join job j on j.id = q.job_id where j.handed_back_at is null order by q.sent_at`;
}

export async function findQuoteJob(sql: Sql, quoteId: string): Promise<string | undefined> {
  const [row] = await sql<{ jobId: string }[]>`select job_id as "jobId" from quote where id = ${quoteId}`;
  return row?.jobId;
}

/** Under the engine's lock: the quote, whether it was answered, the job's newest number, and whether an earlier one was said yes to. */
export async function findQuoteStanding(sql: Sql, quoteId: string) {
  const [row] = await sql<
    {
      number: number;
      newest: number;
      currency: string;
      totalMinor: number;
      answered: boolean;
      saidYes: boolean | null;
      agreedBefore: boolean;
    }[]
  >`
    select q.number, (select max(n.number) from quote n where n.job_id = q.job_id) as newest, q.currency,
           q.total_minor as "totalMinor", a.quote_id is not null as answered, a.yes as "saidYes",
           exists (select from quote b join quote_answer ba on ba.quote_id = b.id
                   where b.job_id = q.job_id and b.number < q.number and ba.yes) as "agreedBefore"
    from quote q left join quote_answer a on a.quote_id = q.id where q.id = ${quoteId}`;
  return row;
}

export async function insertAnswer(
  sql: Sql,
  of: {
    quoteId: string;
    yes: boolean;
    sumMinor: number;
    saidBy: string;
    how: string;
    note: string;
    takenById: string;
  },
): Promise<void> {
  await sql`
    insert into quote_answer (quote_id, yes, sum_minor, said_by, how, note, taken_by_id)
    values (${of.quoteId}, ${of.yes}, ${of.sumMinor}, ${of.saidBy}, ${of.how}, ${of.note}, ${of.takenById})`;
}

/** What the job wants of parts, less what was called off, and the obligation that wants it where there is just one. */
export async function findDemandedParts(sql: Sql, jobId: string) {
  return sql<{ partId: string; name: string; quantity: number; priceMinor: number; obligationId: string | null }[]>`
    select d.part_id as "partId", p.name, d.wanted - d.cancelled as quantity, p.price_minor as "priceMinor",
           (select case when count(distinct r.obligation_id) = 1 then (array_agg(r.obligation_id))[1] end
            from demand_reason r where r.demand_line_id = d.id and r.withdrawn_at is null and r.obligation_id is not null) as "obligationId"
    from demand_line d join part p on p.id = d.part_id
    where d.job_id = ${jobId} and d.wanted > d.cancelled order by d.added_at, d.id`;
}

/** Obligations of the job with the dimension each is about, if any, and the newest decision on it, where there is one. */
export async function findDecisions(sql: Sql, jobId: string) {
  return sql<{ id: string; words: string; dimension: string | null; decided: string | null; discharged: boolean }[]>`
    select o.id, o.words, f.dimension_name as dimension, o.discharged_at is not null as discharged,
           (select d.kind from obligation_act a join disposition d on d.id = a.disposition_id
            where a.obligation_id = o.id and a.act = 'decided' and o.decided_at is not null
            order by a.acted_at desc, a.id desc limit 1) as decided
    from obligation o left join finding f on f.id = o.finding_id
    where o.job_id = ${jobId} order by o.opened_at, o.id`;
}

export async function findOutsideWork(sql: Sql, jobId: string) {
  return sql<{ work: string; vendor: string }[]>`
    select w.work, v.name as vendor from outside_work w join vendor v on v.id = w.vendor_id
    where w.job_id = ${jobId} order by w.sent_at, w.id`;
}
