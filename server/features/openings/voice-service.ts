import type { OpeningRule, OpenVoice, OpenVoices, SetOpeningRule } from '#contracts/opening-rules.ts';
import { openVoices, type Voice } from '#domain/tally/open-voices.ts';
import { refuseWhileOffered } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockOpenOpening } from './open-opening.ts';
import { insertCover } from './queries.ts';
import {
  findNow,
  findOpenEngines,
  findRules,
  findShop,
  insertLook,
  insertRule,
  lockShop,
  type NowRow,
  type OpenRow,
  type RuleRow,
} from './voice-queries.ts';

/** What a shop starts with until a lead sets its own; how long open at all comes from the shop itself. */
const firstUncoveredMinutes = 240;

const histories = 50;

function historyOf({ byId, by, id: _, ...rule }: RuleRow): OpeningRule['history'][number] {
  return { ...rule, shiftEnds: [...rule.shiftEnds], by: { id: byId, name: by } };
}

/** The shop's limits on open engines, with what they were before. */
export async function getOpeningRule(sql: Sql): Promise<OpeningRule> {
  const shop = found(await findShop(sql), 'shop');
  const history = (await findRules(sql, histories)).map(historyOf);
  const [newest] = history;
  return {
    zone: shop.zone,
    uncoveredMinutes: newest?.uncoveredMinutes ?? Math.min(firstUncoveredMinutes, shop.openLimitMinutes),
    coveredMinutes: newest?.coveredMinutes ?? shop.openLimitMinutes,
    shiftEnds: newest?.shiftEnds ?? [],
    set: newest === undefined ? null : { by: newest.by, at: newest.at, note: newest.note },
    history,
  };
}

/** Sets the shop's limits; what they were stays in the history. */
export async function setOpeningRule(act: Act, asked: SetOpeningRule): Promise<OpeningRule> {
  const { uncoveredMinutes, coveredMinutes, shiftEnds } = asked;
  if (uncoveredMinutes > coveredMinutes) {
    throw new ProblemError(
      'refused',
      'Uncovered for longer than it may be open at all: make the first limit the shorter one.',
    );
  }
  const days = shiftEnds.map(({ weekday }) => weekday);
  if (new Set(days).size < days.length)
    throw new ProblemError('refused', 'One weekday has two shift ends. Send the last of the day.');
  await lockShop(act.sql);
  const note = asked.note?.trim() ?? '';
  await insertRule(act.sql, { uncoveredMinutes, coveredMinutes, note, shiftEnds, byId: act.actor.id });
  await act.event('shop.opening-rule-set', { data: { uncoveredMinutes, coveredMinutes, shiftEnds, note } });
  return getOpeningRule(act.sql);
}

const sentences: Readonly<Record<Voice['kind'], (row: OpenRow) => string>> = {
  'may-be-inside': ({ inside }) => `May be inside: ${inside ?? ''}. Do not turn it over.`,
  'uncovered-at-shift-end': () => 'Open and uncovered at the end of the shift, and not covered since.',
  'uncovered-too-long': () => 'Open and uncovered for longer than the shop allows.',
  'open-too-long': ({ covered }) => `Open for longer than the shop allows, ${covered ? 'covered' : 'and uncovered'}.`,
};

function voicesOf(row: OpenRow, rule: OpeningRule, { now, lastShiftEnd }: NowRow): OpenVoice[] {
  const ms = (instant: string): number => Date.parse(instant);
  const facts = {
    openedAt: ms(row.openedAt),
    covered: row.covered,
    coveredOrNotSince: ms(row.coveredSince),
    mayBeInsideSince: row.inside === null ? null : ms(row.insideSince ?? row.openedAt),
  };
  const { uncoveredMinutes, coveredMinutes } = rule;
  const limits = { uncoveredMinutes, coveredMinutes, lastShiftEnd: lastShiftEnd === null ? null : ms(lastShiftEnd) };
  return openVoices(facts, limits, ms(now)).map(({ kind, since }) => ({
    kind,
    since: new Date(since).toISOString(),
    words: sentences[kind](row),
  }));
}

export const seenOf = (row: OpenRow) => ({
  by: { id: row.seenById, name: row.seenBy },
  at: row.seenAt,
  words: row.seenAs,
});

/** Open engines that raise their voice now: to the floor, to whoever holds them, and to the lead. */
export async function listVoices(sql: Sql): Promise<OpenVoices> {
  const rule = await getOpeningRule(sql);
  const now = await findNow(sql);
  const rows = await findOpenEngines(sql);
  const items = rows.map((row) => ({
    engine: { id: row.engineId, serial: row.serial },
    job: { id: row.jobId, number: row.number },
    openingId: row.openingId,
    seen: seenOf(row),
    voices: voicesOf(row, rule, now),
  }));
  const order: readonly Voice['kind'][] = [
    'may-be-inside',
    'uncovered-at-shift-end',
    'uncovered-too-long',
    'open-too-long',
  ];
  const worst = ({ voices }: (typeof items)[number]): number =>
    Math.min(...voices.map(({ kind }) => order.indexOf(kind)));
  return { items: items.filter(({ voices }) => voices.length > 0).sort((a, b) => worst(a) - worst(b)) };
}

/** Who saw an open engine last, and why it raises its voice; nothing of one that is closed. */
export async function standingOfOpening(sql: Sql, openingId: string) {
  const [row] = await findOpenEngines(sql, openingId);
  if (row === undefined) return { seen: null, voices: [] };
  return { seen: seenOf(row), voices: voicesOf(row, await getOpeningRule(sql), await findNow(sql)) };
}

/** Somebody looked at the open engine: covered or not. What they saw holds from now on. */
export async function lookAtOpening(
  act: Act,
  asked: { readonly id: string; readonly covered: boolean; readonly words?: string | undefined },
): Promise<void> {
  const opening = await lockOpenOpening(act, asked.id);
  const { covered } = asked;
  const words = asked.words?.trim() ?? '';
  if (opening.covered && !covered) await refuseWhileOffered(act, { engineId: opening.engineId });
  await insertLook(act.sql, { openingId: opening.id, covered, words, byId: act.actor.id });
  const changed = opening.covered !== covered;
  if (changed) await insertCover(act.sql, { openingId: opening.id, covered, saidById: act.actor.id });
  await act.event('opening.looked', {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: { openingId: opening.id, covered, changed, words, depth: opening.depth },
  });
}
