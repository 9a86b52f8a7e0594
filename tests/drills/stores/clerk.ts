import { isDeepStrictEqual } from 'node:util';
import type { Answer } from '../../support/client.ts';
import type { Shop } from '../../support/shop.ts';
import type { Act, ActKind } from './acts.ts';
import { counting } from './counting.ts';
import { type At, type Does, type Doing, euros, of, reason } from './doing.ts';
import { ordering } from './ordering.ts';
import type { Stage } from './world.ts';

const soon = () => new Date(Date.now() + 800).toISOString();

/** Sends a write, and where its answer was lost sends it once more, which changes nothing and answers the same. */
function sender(as: Shop['as'], again: boolean): Doing['post'] {
  return async (url, body, by = as.clerk) => {
    const key = { 'idempotency-key': crypto.randomUUID() };
    const answer = await by.post(url, body, key);
    if (!again || answer.status >= 300) return answer;
    const repeated = await by.post(url, body, key);
    if (repeated.status !== answer.status || !isDeepStrictEqual(repeated.body, answer.body))
      throw new Error(`${url} sent again answered ${repeated.status} ${JSON.stringify(repeated.body)}`);
    return answer;
  };
}

/** Does one act; undefined: there is nothing yet at which it could be done. */
export async function does(at: At, one: Act): Promise<Answer | undefined> {
  const { stage, as } = at;
  const job = of(stage.jobs, one.job);
  const [partId, line, binId] = [of(stage.parts, one.part), job?.lines[one.part], of(stage.bins, one.bin)];
  if (job === undefined || partId === undefined || line === undefined || binId === undefined) return undefined;
  const lotId = of(stage.lots[one.part] ?? [], one.lot);
  return acts[one.what]({ ...at, one, job, partId, line, binId, lotId, post: sender(as, one.again) });
}

const reserve = ({ post, job, one }: Doing, more: object) =>
  post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: one.whole, ...more });
const onLine = ({ post, line }: Doing, verb: string, body: object) => post(`/api/demand-lines/${line}/${verb}`, body);

/** Who reads first what there is to be done takes that up; it may be gone by the time they do it. */
async function lineWith(doing: Doing, place: 'reserved' | 'issued'): Promise<Doing> {
  const { body } = await doing.as.clerk.get(`/api/jobs/${doing.job.jobId}/demands`);
  const lines: readonly { readonly id: string; readonly reserved: number; readonly issued: number }[] = body.lines;
  const some = lines.filter((line) => line[place] > 0).map(({ id }) => id);
  return { ...doing, line: of(some, doing.one.lot) ?? doing.line };
}

/** Of the lots of the part one in which something lies, where there is one. */
async function lotWithSome(doing: Doing): Promise<Doing> {
  const lying = await doing.shop.sql<{ id: string }[]>`
    select id from stock_lot where part_id = ${doing.partId} and on_hand > 0 and bin_id <> ${doing.binId} order by id`;
  return { ...doing, lotId: of(lying, doing.one.lot)?.id ?? doing.lotId };
}

async function answerQuote({ as, job, one, post }: Doing, yes: boolean): Promise<Answer | undefined> {
  const quoteId = one.whole ? job.quotes.at(-1) : of(job.quotes, one.lot);
  if (quoteId === undefined) return undefined;
  const sum = yes ? { sum: euros(21_400) } : {};
  return post(`/api/quotes/${quoteId}/answer`, { yes, ...sum, saidBy: 'Ingrid Falk', how: 'by telephone' }, as.writer);
}

/** A rule drawn from what the act is about. */
function ruleOf({ pieces, whole }: Act): object {
  if (pieces === 1) return { rule: 'oldest' };
  if (pieces === 2) return { rule: 'grade', grade: whole ? 'a' : 'B' };
  return { rule: 'exact thickness', thickness: { value: whole ? '2.35' : '2.3', unit: 'mm' } };
}

/** Goods that come in, by purchase or without one. */
async function receipt({ stage, post, partId, binId, one }: Doing, more: object): Promise<Answer> {
  const quantity = stage.parts.indexOf(partId) === stage.parts.length - 1 ? 1 : one.pieces;
  const cost = one.lot * one.pieces;
  const bySerial = partId === stage.parts.at(-1);
  if (bySerial) stage.serials += 1;
  const serial = bySerial ? { serial: `S-${stage.serials}` } : {};
  const answer = await post('/api/receipts', { partId, binId, quantity, cost: euros(cost), ...serial, ...more });
  if (answer.status !== 201) return answer;
  stage.told.came += quantity;
  stage.told.cost += cost;
  stage.lots[stage.parts.indexOf(partId)]?.push(answer.body.lotId);
  return answer;
}

async function buy(doing: Doing): Promise<Answer> {
  const { stage, post, partId, one, shop, job } = doing;
  const quantity = partId === stage.parts.at(-1) ? 1 : one.pieces;
  const of = { vendorId: shop.vendorId, partId, quantity, ...(one.whole ? { jobId: job.jobId } : {}) };
  const ordered = await post('/api/purchase-lines', { ...of, replacedWhy: reason });
  if (ordered.status !== 201) return ordered;
  const came = await receipt(doing, { purchaseLineId: ordered.body.id });
  if (came.status === 201) stage.bought.push({ id: ordered.body.id, partId, lotId: came.body.lotId });
  return came;
}

const acts: Readonly<Record<ActKind, Does>> = {
  ...counting,
  ...ordering,
  'want more': ({ post, job, partId, one }) =>
    post(`/api/jobs/${job.jobId}/demands`, { lines: [{ partId, quantity: one.pieces, words: reason }] }),
  reserve: (doing) => reserve(doing, {}),
  hold: (doing) => reserve(doing, { expiresAt: soon() }),
  release: async (any) => {
    const doing = await lineWith(any, 'reserved');
    return onLine(doing, 'release', { quantity: doing.one.whole ? 1 : doing.one.pieces });
  },
  reassign: async (any) => {
    const doing = await lineWith(any, 'reserved');
    return onLine(doing, 'reassign', { toJobId: of(doing.stage.jobs, doing.one.toJob)?.jobId, quantity: 1, reason });
  },
  issue: async (any) => {
    const doing = await lineWith(any, 'reserved');
    const quantity = doing.one.whole ? 1 : doing.one.pieces;
    return handedOver(doing, await onLine(doing, 'issue', { quantity }), quantity);
  },
  'bring back': async (any) => {
    const doing = await lineWith(any, 'issued');
    const { one, binId } = doing;
    const elsewhere = one.toJob % 2 === 0 ? { binId } : {};
    const quantity = one.whole ? 1 : one.pieces;
    const answer = await onLine(doing, 'return', { quantity, stillNeeded: one.whole, ...elsewhere });
    return handedOver(doing, answer, -quantity);
  },
  cancel: (doing) => {
    const { whole, pieces } = doing.one;
    return onLine(doing, 'cancel', { ...(whole ? {} : { quantity: pieces }), words: reason });
  },
  quote: async ({ post, job, as, partId }) => {
    const lines = [{ kind: 'part', words: 'Shims', quantity: 1, each: euros(21_400), partId }];
    const answer = await post(`/api/jobs/${job.jobId}/quotes`, { lines }, as.writer);
    if (answer.status === 201) job.quotes.push(answer.body.id);
    return answer;
  },
  'say yes': (doing) => answerQuote(doing, true),
  'say no': (doing) => answerQuote(doing, false),
  receive: (doing) =>
    moved(doing, { act: 'receive', quantity: doing.one.pieces, cost: euros(doing.one.lot) }, (told) => {
      told.came += doing.one.pieces;
      told.cost += doing.one.lot;
    }),
  count: (doing) => moved(doing, { act: 'count', counted: doing.one.pieces - 1 + (doing.one.whole ? 1 : 0) }),
  scrap: (doing) =>
    moved(doing, { act: 'scrap', quantity: doing.one.pieces }, (told) => {
      told.scrapped += doing.one.pieces;
    }),
  transfer: async (any) => {
    const doing = await lotWithSome(any);
    const quantity = doing.one.whole ? 1 : doing.one.pieces;
    const answer = await moved(doing, { act: 'transfer', quantity, toBinId: doing.binId });
    const own = doing.stage.lots[doing.one.part];
    const to = answer?.body?.toLotId;
    if (typeof to === 'string' && own?.includes(to) === false) own.push(to);
    return answer;
  },
  'take in used': (doing) => receipt(doing, { usedCondition: 'measured: as new' }),
  'take in by serial': (doing) => receipt({ ...doing, partId: doing.stage.parts.at(-1) ?? '' }, {}),
  buy,
  'send back': async ({ stage, one, post }) => {
    const bought = of(stage.bought, one.lot);
    if (bought === undefined) return undefined;
    const back = { kind: 'sent back', quantity: one.pieces, lotId: bought.lotId, words: reason };
    const answer = await post(`/api/purchase-lines/${bought.id}/faults`, back);
    if (answer.status === 201) stage.told.sentBack += one.pieces;
    return answer;
  },
  replace: async ({ stage, post, partId, one }) => {
    const next = stage.parts[one.part + 1];
    if (next === undefined || next === stage.parts.at(-1)) return undefined;
    const body = { byPartId: next, oldStock: one.whole ? 'use up' : 'new only' };
    return post(`/api/parts/${partId}/supersession`, body);
  },
  'withdraw replacement': ({ post, partId }) => post(`/api/parts/${partId}/supersession/withdraw`, { reason }),
  rule: (doing) => onLine(doing, 'lot-rule', { ...ruleOf(doing.one), reason }),
  'reserve of a lot': async (doing) => {
    const choice = await doing.as.clerk.get(`/api/demand-lines/${doing.line}/lots`);
    const lots: readonly { lotId: string; meetsRule: boolean }[] = choice.body.items ?? [];
    const lot = of(lots, doing.one.lot);
    if (lot === undefined) return undefined;
    return onLine(doing, 'reserve-of-lot', { lotId: lot.lotId, quantity: 1, reason });
  },
  mark: async ({ lotId, post, one }) => {
    if (lotId === undefined) return undefined;
    return post(`/api/lots/${lotId}/marks`, { grade: of(['A', 'B', ''], one.pieces), reason });
  },
  promise: ({ post, job, as, one }) =>
    post(`/api/jobs/${job.jobId}/promises`, { readyOn: `2099-12-${10 + (one.lot % 20)}`, sureOf5: 3 }, as.writer),
};

function handedOver({ stage, line }: Doing, answer: Answer, quantity: number): Answer {
  if (answer.status !== 200) return answer;
  const { told } = stage;
  if (quantity > 0) told.issued += quantity;
  else told.returned -= quantity;
  told.out.set(line, (told.out.get(line) ?? 0) + quantity);
  return answer;
}

async function moved(
  { lotId, post, stage }: Doing,
  body: object,
  note?: (told: Stage['told']) => void,
): Promise<Answer | undefined> {
  if (lotId === undefined) return undefined;
  const answer = await post('/api/stock-movements', { lotId, reason, ...body });
  if (answer.status === 201) note?.(stage.told);
  return answer;
}
