import type { AnswerQuote, JobQuotes, MakePromise, OpenQuotes, PromiseMade, SendQuote } from '#contracts/counter.ts';
import { lineKinds, waysToSayYes } from '#contracts/counter.ts';
import type { Money as WireMoney } from '#contracts/wire.ts';
import { formatMoney, type Money, minorText, money, multiplyMoney, totalMoney } from '#domain/units/money.ts';
import { openJob } from '#features/intake/service.ts';
import { giveBackHeld, holdFirmly } from '#features/stores/answers/service.ts';
import { holdUntilYes } from '#features/stores/holds/service.ts';
import type { Act } from '#platform/act.ts';
import type { Models, Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findForeignObligations,
  findOpenQuotes,
  findPromises,
  findQuoteJob,
  findQuoteStanding,
  findQuotes,
  findShopTerms,
  insertAnswer,
  insertPromise,
  insertQuote,
  jobExists,
  type NewLine,
} from './queries.ts';

const oneOf = <Choice extends string>(choices: readonly Choice[], text: string): Choice =>
  found(
    choices.find((choice) => choice === text),
    `such choice as ${text}`,
  );

const onWire = (sum: Money): WireMoney => ({ minor: minorText(sum), currency: sum.currency });

const refusedAt = (pointer: string, detail: string): ProblemError =>
  new ProblemError('refused', detail, { errors: [{ pointer, detail }] });

/** Tells the owner a date. The newest one of a job counts. */
export async function makePromise(act: Act, asked: { jobId: string } & MakePromise): Promise<PromiseMade> {
  const job = await openJob(act, asked.jobId);
  const { today } = found(await findShopTerms(act.sql), 'shop yet');
  if (asked.readyOn < today) {
    throw refusedAt('/readyOn', `${asked.readyOn} is past: today is ${today}. Promise a day that is still to come.`);
  }
  const note = asked.note?.trim() ?? '';
  const { readyOn, sureOf5 } = asked;
  const { id, madeAt } = await insertPromise(act.sql, {
    jobId: job.id,
    readyOn,
    sureOf5,
    note,
    madeById: act.actor.id,
  });
  await act.event('promise.made', { engineId: job.engineId, jobId: job.id, data: { readyOn, sureOf5, note } });
  return { id, jobId: job.id, readyOn, sureOf5, note, madeBy: { id: act.actor.id, name: act.actor.name }, madeAt };
}

export async function promisesOf(db: Models, jobId: string): Promise<readonly PromiseMade[]> {
  if (!(await jobExists(db, jobId))) throw new ProblemError('not-found', 'There is no such job.');
  return (await findPromises(db, jobId)).map((promise) => ({
    id: promise.id,
    jobId,
    readyOn: promise.readyOn.toISOString().slice(0, 10),
    sureOf5: promise.sureOf5,
    note: promise.note,
    madeBy: { id: promise.madeBy.id, name: promise.madeBy.name },
    madeAt: promise.madeAt.toISOString(),
  }));
}

interface PricedLine {
  readonly amount: Money;
  readonly row: NewLine;
}

/** The wire has checked the digits; here the currency is checked, and that nothing grows beyond what is kept exactly. */
function pricedLine(line: SendQuote['lines'][number], index: number, currency: string): PricedLine {
  if (line.each.currency !== currency) {
    throw refusedAt(`/lines/${index}/each/currency`, `This shop quotes in ${currency}, not in ${line.each.currency}.`);
  }
  const each = money(BigInt(line.each.minor), currency);
  if (each.minor < 0n) throw refusedAt(`/lines/${index}/each`, 'A price can’t be below nothing.');
  const amount = multiplyMoney(each, BigInt(line.quantity));
  if (amount.minor > BigInt(Number.MAX_SAFE_INTEGER)) {
    throw refusedAt(`/lines/${index}`, 'That sum is too large to be right. Check quantity and price.');
  }
  return {
    amount,
    row: {
      kind: line.kind,
      words: line.words.trim(),
      quantity: line.quantity,
      eachMinor: Number(each.minor),
      amountMinor: Number(amount.minor),
      partId: line.partId ?? null,
      obligationId: line.obligationId ?? null,
    },
  };
}

/**
 * Sends a quote: the sum is worked out here, and an earlier quote can't be answered any more. What stores hold for a job
 * without a yes is held until a day from now on.
 */
export async function sendQuote(act: Act, asked: { jobId: string } & SendQuote) {
  const job = await openJob(act, asked.jobId);
  const { currency } = found(await findShopTerms(act.sql), 'shop yet');
  const lines = asked.lines.map((line, index) => pricedLine(line, index, currency));
  const total = totalMoney(
    lines.map(({ amount }) => amount),
    currency,
  );
  if (total.minor > BigInt(Number.MAX_SAFE_INTEGER)) throw refusedAt('/lines', 'That sum is too large to be right.');
  const [foreign] = await findForeignObligations(
    act.sql,
    job.id,
    asked.lines.flatMap(({ obligationId }) => obligationId ?? []),
  );
  if (foreign !== undefined) {
    const index = asked.lines.findIndex(({ obligationId }) => obligationId === foreign);
    throw refusedAt(`/lines/${index}/obligationId`, `Job ${job.number} has no such obligation.`);
  }
  const { id, number } = await insertQuote(act.sql, {
    jobId: job.id,
    currency,
    totalMinor: Number(total.minor),
    note: asked.note?.trim() ?? '',
    sentById: act.actor.id,
    lines: lines.map(({ row }) => row),
  });
  // No sum: everyone signed in reads the timeline, not everyone reads prices.
  const { held } = await holdUntilYes(act, job.id);
  await act.event('quote.sent', { engineId: job.engineId, jobId: job.id, data: { number, lines: lines.length, held } });
  return { id, number, total: onWire(total) };
}

export async function quotesOf(db: Models, jobId: string): Promise<JobQuotes> {
  if (!(await jobExists(db, jobId))) throw new ProblemError('not-found', 'There is no such job.');
  const quotes = await findQuotes(db, jobId);
  const newest = quotes[0]?.number;
  const items = quotes.map((quote) => {
    const sum = (minor: bigint) => onWire(money(minor, quote.currency));
    const answer = quote.quoteAnswer;
    return {
      id: quote.id,
      jobId,
      number: quote.number,
      replaced: quote.number !== newest,
      total: sum(quote.totalMinor),
      note: quote.note,
      lines: quote.quoteLines.map((line) => ({
        kind: oneOf(lineKinds, line.kind),
        words: line.words,
        quantity: line.quantity,
        each: sum(line.eachMinor),
        amount: sum(line.amountMinor),
        partId: line.partId,
        obligationId: line.obligationId,
      })),
      sentBy: { id: quote.sentBy.id, name: quote.sentBy.name },
      sentAt: quote.sentAt.toISOString(),
      answer:
        answer === null
          ? null
          : {
              yes: answer.yes,
              sum: answer.yes ? sum(answer.sumMinor) : null,
              saidBy: answer.saidBy,
              how: oneOf(waysToSayYes, answer.how),
              note: answer.note,
              takenBy: { id: answer.takenBy.id, name: answer.takenBy.name },
              takenAt: answer.takenAt.toISOString(),
            },
    };
  });
  return { items };
}

/** What every open job was quoted last, and what was said to it. */
export async function openQuotes(sql: Sql): Promise<OpenQuotes> {
  const rows = await findOpenQuotes(sql);
  return {
    items: rows.map(({ currency, totalMinor, sumMinor, ...row }) => {
      const sum = (minor: number) => onWire(money(BigInt(minor), currency.trim()));
      return { ...row, total: sum(totalMinor), sum: row.yes === true && sumMinor !== null ? sum(sumMinor) : null };
    }),
  };
}

/** What was agreed to: the quote's total, or less when the note says what is left out. */
function agreedSum(asked: AnswerQuote, total: Money): Money {
  if (!asked.yes) return money(0n, total.currency);
  if (asked.sum === undefined) throw refusedAt('/sum', 'Say to what sum the owner said yes.');
  if (asked.sum.currency !== total.currency) throw refusedAt('/sum/currency', `The quote is in ${total.currency}.`);
  const sum = money(BigInt(asked.sum.minor), total.currency);
  const asQuoted = `${formatMoney(total)} ${total.currency}`;
  if (sum.minor < 0n) throw refusedAt('/sum', 'A yes can’t be to less than nothing.');
  if (sum.minor > total.minor) {
    throw refusedAt('/sum', `The quote is for ${asQuoted}. For more than that send a new quote and ask again.`);
  }
  if (sum.minor < total.minor && !/\S/.test(asked.note ?? '')) {
    throw refusedAt('/note', `The quote is for ${asQuoted}. Say in a note what is left out of it.`);
  }
  return sum;
}

/**
 * Records what the owner said to the newest quote of an open job, once. A yes makes firm what stores hold for the job; a
 * no gives it back.
 */
export async function answerQuote(act: Act, asked: { quoteId: string } & AnswerQuote): Promise<void> {
  const job = await openJob(act, found(await findQuoteJob(act.sql, asked.quoteId), 'such quote'));
  const quote = found(await findQuoteStanding(act.sql, asked.quoteId), 'such quote');
  if (quote.answered) {
    throw new ProblemError(
      'already-done',
      `Quote ${quote.number} of job ${job.number} was answered with ${quote.saidYes ? 'yes' : 'no'} already. For something else send a new quote.`,
    );
  }
  if (quote.number !== quote.newest) {
    throw new ProblemError('conflict', `Quote ${quote.newest} has replaced quote ${quote.number}. Ask about that one.`);
  }
  const sum = agreedSum(asked, money(BigInt(quote.totalMinor), quote.currency));
  const { yes, how } = asked;
  const saidBy = asked.saidBy.trim();
  await insertAnswer(act.sql, {
    quoteId: asked.quoteId,
    yes,
    sumMinor: Number(sum.minor),
    saidBy,
    how,
    note: asked.note?.trim() ?? '',
    takenById: act.actor.id,
  });
  const held = yes
    ? await holdFirmly(act, job.id)
    : await giveBackHeld(act, {
        jobId: job.id,
        agreedBefore: quote.agreedBefore,
        reason: `no to quote ${quote.number}`,
      });
  await act.event('quote.answered', {
    engineId: job.engineId,
    jobId: job.id,
    data: { number: quote.number, yes, saidBy, how, ...held },
  });
}
