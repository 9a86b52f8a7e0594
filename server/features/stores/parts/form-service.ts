import type { AddPart, ChangePart } from '#contracts/part-forms.ts';
import type { PartName } from '#contracts/parts.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { minorOf } from '../movements/service.ts';
import { writeCompanions } from './companion-service.ts';
import {
  familyExists,
  findNumber,
  insertPart,
  type KnownBasics,
  lockBasics,
  type PartBasics,
  updateBasics,
} from './form-queries.ts';

/** Words that may be none: an empty field says nothing. */
export const textOrNull = (text: string | null | undefined): string | null => text?.trim() || null;

async function basicsOf(act: Act, asked: ChangePart, was: PartBasics): Promise<PartBasics> {
  const { name, familyId, placeCode, sizeClass, grade, oneTime, price, core, reorderPoint } = asked;
  if (familyId != null && !(await familyExists(act.sql, familyId))) {
    throw new ProblemError('not-found', 'There is no such family.', {
      errors: [{ pointer: '/familyId', detail: 'is not known' }],
    });
  }
  return {
    name: name?.trim() ?? was.name,
    familyId: familyId === undefined ? was.familyId : familyId,
    placeCode: placeCode === undefined ? was.placeCode : textOrNull(placeCode),
    sizeClass: sizeClass === undefined ? was.sizeClass : textOrNull(sizeClass),
    grade: grade?.trim() ?? was.grade,
    oneTime: oneTime ?? was.oneTime,
    priceMinor: price === undefined ? was.priceMinor : await minorOf(act, price, '/price'),
    coreMinor: core === undefined ? was.coreMinor : await minorOf(act, core, '/core'),
    reorderPoint: reorderPoint ?? was.reorderPoint,
  };
}

const blank: PartBasics = {
  name: '',
  familyId: null,
  placeCode: null,
  sizeClass: null,
  grade: '',
  oneTime: false,
  priceMinor: 0,
  coreMinor: 0,
  reorderPoint: 0,
};

/** Adds one part by hand. What it is counted in, and whether by serial, is said here and stays. */
export async function addPart(act: Act, asked: AddPart): Promise<PartName> {
  const { number: written, unit, bySerial, companions, ...rest } = asked;
  const number = written.trim();
  const known = await findNumber(act.sql, number);
  if (known !== undefined) {
    throw new ProblemError('conflict', `There is a part ${known} already.`, {
      errors: [{ pointer: '/number', detail: 'is taken' }],
    });
  }
  const basics = await basicsOf(act, rest, blank);
  const part = await insertPart(act.sql, { ...basics, number, unit: unit ?? 'piece', bySerial: bySerial ?? false });
  await writeCompanions(act, part, companions);
  await act.event('part.added', { data: { part: number, name: part.name } });
  return part;
}

/** Changes what is said of a part. One that is retired is not asked for any more; what is reserved stays. */
export async function changePart(act: Act, asked: ChangePart & { readonly id: string }): Promise<PartName> {
  const { id, retired, companions, ...rest } = asked;
  const was: KnownBasics = found(await lockBasics(act.sql, id), 'such part');
  const basics = await basicsOf(act, rest, was);
  await updateBasics(act.sql, { ...basics, id, retired: retired ?? was.retired });
  await writeCompanions(act, { id, number: was.number, name: basics.name }, companions);
  await act.event('part.changed', {
    data: { part: was.number, name: basics.name, retired: retired ?? was.retired },
  });
  return { id, number: was.number, name: basics.name };
}
