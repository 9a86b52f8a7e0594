import { hash, verify } from '@node-rs/argon2';
import type { AddPerson, ChangePerson, NewPin, OwnPin, People } from '#contracts/people.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { endOtherSessions } from '#platform/identity/sessions.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { isGuessedFirst } from './pin-rules.ts';
import {
  clearLeft,
  findPeople,
  forgetFailures,
  insertPerson,
  lockPerson,
  setLeft,
  setPin,
  setRoles,
  updatePerson,
} from './queries.ts';

const refusedAt = (pointer: string, detail: string): ProblemError =>
  new ProblemError('refused', detail, { errors: [{ pointer, detail }] });

function checkPin(pin: string, pointer: string): void {
  if (isGuessedFirst(pin)) {
    throw refusedAt(pointer, 'Anybody would try that PIN first. Take digits that are no run and not all the same.');
  }
}

/** Everybody who works here, then those who did. */
export const people = async (sql: Sql): Promise<People> => ({ items: await findPeople(sql) });

/** Somebody new, who may sign in from then on. */
export async function addPerson(act: Act, asked: AddPerson): Promise<{ id: string }> {
  checkPin(asked.pin, '/pin');
  const name = asked.name.trim();
  const id = await insertPerson(act.sql, { name, initials: asked.initials, pinHash: await hash(asked.pin) });
  await setRoles(act.sql, id, asked.roles);
  await act.event('person.joined', { data: { name, initials: asked.initials, roles: asked.roles } });
  return { id };
}

/** Name, initials and roles. What somebody did keeps the name it was done under only where it was printed. */
export async function changePerson(act: Act, id: string, asked: ChangePerson): Promise<{ id: string }> {
  const person = found(await lockPerson(act.sql, id), 'such person');
  const name = asked.name?.trim();
  await updatePerson(act.sql, id, { name, initials: asked.initials });
  if (asked.roles !== undefined) await setRoles(act.sql, id, asked.roles);
  await act.event('person.changed', { data: { name: person.name, now: { ...asked, ...(name && { name }) } } });
  return { id };
}

/** A PIN given by the lead: whoever is signed in under that name has to sign in anew. */
export async function givePin(act: Act, id: string, { pin }: NewPin): Promise<{ id: string }> {
  checkPin(pin, '/pin');
  const person = found(await lockPerson(act.sql, id), 'such person');
  await setPin(act.sql, id, await hash(pin));
  await forgetFailures(act.sql, id);
  await endOtherSessions(act.sql, id, act.actor.sessionId);
  await act.event('person.pin-given', { data: { name: person.name } });
  return { id };
}

/** One's own PIN; every other place one is signed in at is signed out. */
export async function changeOwnPin(act: Act, { pin, newPin }: OwnPin): Promise<{ id: string }> {
  checkPin(newPin, '/newPin');
  const { id, sessionId } = act.actor;
  const person = found(await lockPerson(act.sql, id), 'such person');
  if (!(await verify(person.pinHash, pin))) throw refusedAt('/pin', 'That is not your PIN as it is now.');
  await setPin(act.sql, id, await hash(newPin));
  await endOtherSessions(act.sql, id, sessionId);
  await act.event('person.pin-changed', { data: {} });
  return { id };
}

/** Somebody leaves: signs in no more, holds nothing, and stays beside all that was done. */
export async function leaveShop(act: Act, id: string): Promise<{ id: string }> {
  const person = found(await lockPerson(act.sql, id), 'such person');
  if (person.leftAt !== null) throw new ProblemError('already-done', `${person.name} has left already.`);
  if (id === act.actor.id) throw new ProblemError('refused', 'You can’t take yourself off the shop. Ask another lead.');
  await setLeft(act.sql, id);
  await endOtherSessions(act.sql, id, act.actor.sessionId);
  await act.event('person.left', { data: { name: person.name } });
  return { id };
}

/** Somebody who had left works here again, with the roles and the PIN of before. */
export async function comeBack(act: Act, id: string): Promise<{ id: string }> {
  const person = found(await lockPerson(act.sql, id), 'such person');
  if (person.leftAt === null) throw new ProblemError('already-done', `${person.name} works here.`);
  await clearLeft(act.sql, id);
  await act.event('person.came-back', { data: { name: person.name } });
  return { id };
}
