import type {
  LotsToChoose,
  NameAlternative,
  PartInstead,
  SupersedePart,
  WithdrawAlternative,
} from '#contracts/parts-instead.ts';
import { roomUnder } from '#domain/stock/lot-rule.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { millimetresOrNull } from '../parts/thickness.ts';
import {
  findAlternatives,
  findAlternativeTo,
  findChain,
  findCondition,
  findLotsToChoose,
  findPartsToTie,
  findReplaced,
  findServing,
  insertAlternatives,
  lineExists,
  type PartToTie,
  setSuccessor,
} from './queries.ts';

/** What may be fitted instead of a part, and in whose place it may be fitted itself. */
async function partInstead(sql: Sql, partId: string): Promise<PartInstead> {
  const [chain, replaces, servedBy, alternatives, alternativeTo] = await Promise.all([
    findChain(sql, partId),
    findReplaced(sql, partId),
    findServing(sql, partId),
    findAlternatives(sql, partId),
    findAlternativeTo(sql, partId),
  ]);
  return { chain, replaces, servedBy, alternatives, alternativeTo };
}

export async function insteadOf(sql: Sql, partId: string): Promise<PartInstead> {
  if ((await findPartsToTie(sql, [partId])).length === 0) throw new ProblemError('not-found', 'There is no such part.');
  return partInstead(sql, partId);
}

interface Tied {
  readonly part: PartToTie;
  readonly other: PartToTie;
}

/** Both parts, or a refusal that names the one that cannot be tied and the field it came in. */
async function tied(act: Act, of: { readonly partId: string; readonly otherId: string; readonly pointer: string }) {
  const refuse = (code: 'refused' | 'not-found', detail: string, why: string): never => {
    throw new ProblemError(code, detail, { errors: [{ pointer: of.pointer, detail: why }] });
  };
  const parts = await findPartsToTie(act.sql, [of.partId, of.otherId]);
  const part = found(
    parts.find(({ id }) => id === of.partId),
    'such part',
  );
  const other = parts.find(({ id }) => id === of.otherId);
  if (other === undefined) return refuse('not-found', `There is no part ${of.otherId}.`, 'is not known');
  const pair: Tied = { part, other };
  if (part.id === other.id)
    return refuse('refused', `${part.name} (${part.number}) cannot stand in its own place.`, 'is the part itself');
  return { ...pair, refuse };
}

function refuseUnfit({ part, other, refuse }: Awaited<ReturnType<typeof tied>>): void {
  if (other.retired)
    refuse('refused', `${other.name} (${other.number}) is not stocked any more. Choose another part.`, 'is retired');
  if (other.unit !== part.unit)
    refuse(
      'refused',
      `${part.number} is counted by the ${part.unit}, ${other.number} by the ${other.unit}: one is not so many of the other.`,
      'is counted in another unit',
    );
}

/** Says what replaces a part from now on, and whether its stock is used up first. */
export async function supersede(act: Act, asked: SupersedePart & { readonly partId: string }): Promise<PartInstead> {
  const pair = await tied(act, { partId: asked.partId, otherId: asked.byPartId, pointer: '/byPartId' });
  refuseUnfit(pair);
  const { part, other } = pair;
  await setSuccessor(act.sql, { partId: part.id, byPartId: other.id, oldStock: asked.oldStock });
  await act.event('part.superseded', {
    data: { part: part.number, name: part.name, by: other.number, byName: other.name, oldStock: asked.oldStock },
  });
  return partInstead(act.sql, part.id);
}

/** Takes a replacement back: what is reserved already stays reserved. */
export async function withdrawSupersession(
  act: Act,
  asked: { readonly partId: string; readonly reason: string },
): Promise<PartInstead> {
  const [part] = await findPartsToTie(act.sql, [asked.partId]);
  const { id, number, name, supersededById } = found(part, 'such part');
  if (supersededById === null)
    throw new ProblemError('already-done', `${name} (${number}) is not replaced by another part.`);
  await setSuccessor(act.sql, { partId: id, byPartId: null, oldStock: 'use up' });
  await act.event('part.supersession-withdrawn', { data: { part: number, name, reason: asked.reason.trim() } });
  return partInstead(act.sql, id);
}

export async function nameAlternative(
  act: Act,
  asked: NameAlternative & { readonly toPartId: string },
): Promise<PartInstead> {
  const pair = await tied(act, { partId: asked.toPartId, otherId: asked.partId, pointer: '/partId' });
  refuseUnfit(pair);
  const { part, other } = pair;
  const [condition, bothWays] = [asked.condition.trim(), asked.bothWays === true];
  const pairs = [{ partId: part.id, otherId: other.id, condition }];
  if (bothWays) pairs.push({ partId: other.id, otherId: part.id, condition });
  await insertAlternatives(act.sql, pairs, act.actor.id);
  await act.event('part.alternative-named', {
    data: { part: part.number, name: part.name, other: other.number, otherName: other.name, condition, bothWays },
  });
  return partInstead(act.sql, part.id);
}

export async function withdrawAlternative(
  act: Act,
  asked: WithdrawAlternative & { readonly toPartId: string },
): Promise<PartInstead> {
  const { part, other } = await tied(act, { partId: asked.toPartId, otherId: asked.partId, pointer: '/partId' });
  if ((await findCondition(act.sql, { partId: part.id, otherId: other.id })) === undefined)
    throw new ProblemError('already-done', `${other.number} is no alternative to ${part.number}.`);
  await insertAlternatives(act.sql, [{ partId: part.id, otherId: other.id, condition: '' }], act.actor.id);
  await act.event('part.alternative-withdrawn', {
    data: {
      part: part.number,
      name: part.name,
      other: other.number,
      otherName: other.name,
      reason: asked.reason.trim(),
    },
  });
  return partInstead(act.sql, part.id);
}

/** The lots that somebody may choose for a line: used ones and alternatives among them, which no rule takes. */
export async function lotsToChoose(sql: Sql, lineId: string): Promise<LotsToChoose> {
  if (!(await lineExists(sql, lineId))) throw new ProblemError('not-found', 'There is no such demand line.');
  const rows = await findLotsToChoose(sql, lineId);
  return {
    items: rows.map(({ shimNm, rule, open, gotNm, ...lot }) => ({
      ...lot,
      thickness: millimetresOrNull(shimNm),
      meetsRule: roomUnder(rule, { open, got: gotNm, lot: { thickness: shimNm, grade: lot.grade } }) > 0,
    })),
  };
}
