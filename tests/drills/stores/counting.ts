import type { CountSheet } from '#contracts/counts.ts';
import type { Answer, Client } from '../../support/client.ts';
import { type Does, type Doing, of, reason } from './doing.ts';

interface Sheet extends Pick<CountSheet, 'id' | 'state' | 'round' | 'lines'> {
  /** Who counts its last round, at the server of whoever comes to it. */
  readonly counter: Client;
}

/** One of the sheets, as whoever counts it reads it: of those that wait for this, or else for that. */
async function sheetTo(doing: Doing, ...states: readonly CountSheet['state'][]): Promise<Sheet | undefined> {
  const { stage, as, shop, one } = doing;
  const waiting: Sheet[] = [];
  for (const id of stage.sheets) {
    const { body } = await as.lead.get(`/api/count-sheets/${id}`);
    if (body.state === 'done' || body.state === 'given up') continue;
    const counter = body.round.counter.id === shop.people.lead ? as.lead : as.clerk;
    waiting.push({ ...(await counter.get(`/api/count-sheets/${id}`)).body, counter });
  }
  const right = [...states.map((state) => waiting.filter((sheet) => sheet.state === state)), waiting];
  return of(right.find((sheets) => sheets.length > 0) ?? [], one.lot);
}

/** What lies there by the books, or a little more or less; of what bears a serial one or none. */
async function countOf({ shop, one }: Doing, line: Sheet['lines'][number], at: number): Promise<number> {
  const [lying] = await shop.sql<{ pieces: number }[]>`
    select l.on_hand as pieces from count_line c join stock_lot l on l.id = c.lot_id where c.id = ${line.id}`;
  const off = (at + one.lot) % 3 === 0 ? 0 : one.pieces === 1 ? -1 : 1;
  return Math.min(line.serial === null ? 1_000_000 : 1, Math.max(0, (lying?.pieces ?? 0) + off));
}

/** Keys what is to be counted of a sheet, now and then something found besides, and hands it in. */
async function count(doing: Doing, sheet: Sheet): Promise<Answer> {
  const { post, one, stage, binId, partId } = doing;
  const path = `/api/count-sheets/${sheet.id}`;
  const blind = sheet.lines.filter(({ state }) => state === 'to count' || state === 'counted');
  if (sheet.state === 'counting' && blind.some(({ seen }) => seen !== null))
    throw new Error(`sheet ${sheet.id} tells what the books say while it is counted blind`);
  for (const [at, line] of sheet.lines.entries()) {
    if (line.state === 'settled') continue;
    const counted = await countOf(doing, line, at);
    const keyed = await post(`${path}/counts`, { lineId: line.id, counted }, sheet.counter);
    if (keyed.status !== 201) return keyed;
  }
  if (one.toJob === 0 && partId !== stage.parts.at(-1))
    await post(`${path}/found`, { binId, partId, lotCode: 'F', counted: one.pieces }, sheet.counter);
  return post(`${path}/hand-in`, { round: sheet.round.number }, sheet.counter);
}

const countSheet: Does = async (doing) => {
  const sheet = await sheetTo(doing, 'counting');
  return sheet === undefined ? undefined : count(doing, sheet);
};

const countAgain: Does = async (doing) => {
  const sheet = await sheetTo(doing, 'to recount');
  if (sheet === undefined) return undefined;
  return doing.post(`/api/count-sheets/${sheet.id}/recount`, {}, doing.one.whole ? doing.as.lead : doing.as.clerk);
};

/** Where nothing waits for a decision yet, a sheet is counted and, by the lead, counted again first. */
const settle: Does = async (doing) => {
  const { post, as, one } = doing;
  const sheet = await sheetTo(doing, 'to decide', 'to recount', 'counting');
  if (sheet === undefined) return undefined;
  const path = `/api/count-sheets/${sheet.id}`;
  if (sheet.state === 'counting') await count(doing, sheet);
  if (sheet.state !== 'to decide') {
    const begun = await post(`${path}/recount`, {}, as.lead);
    if (begun.status === 201) await count(doing, { ...begun.body, counter: as.lead });
  }
  const { body } = await as.lead.get(path);
  const lines: Sheet['lines'] = body.lines;
  const line = lines.find(({ state }) => state === 'to decide') ?? lines[0];
  if (line === undefined) return undefined;
  const decision = one.lot % 4 === 0 ? 'count again' : 'adjust';
  return post(`${path}/decisions`, { lineId: line.id, decision, reason: 'decided' }, as.lead);
};

/** Some of the bins at once: one, or two of them. */
const binsAt = ({ stage, binId, one }: Doing): readonly string[] =>
  one.whole ? [binId] : [...new Set([binId, of(stage.bins, one.lot) ?? binId])];

export const counting = {
  'begin a sheet': async (doing) => {
    const answer = await doing.post('/api/count-sheets', { binIds: binsAt(doing) });
    if (answer.status === 201) doing.stage.sheets.push(answer.body.id);
    return answer;
  },
  'count a sheet': countSheet,
  'count again': countAgain,
  'settle a count': settle,
  'give a sheet up': async (doing) => {
    const sheet = await sheetTo(doing, 'to decide');
    return sheet === undefined ? undefined : doing.post(`/api/count-sheets/${sheet.id}/give-up`, { reason });
  },
  'close bins': (doing) => doing.post('/api/bins/changes', { binIds: binsAt(doing), closed: true }),
  'open bins': (doing) => doing.post('/api/bins/changes', { binIds: doing.stage.bins, closed: false }),
} satisfies Readonly<Record<string, Does>>;
