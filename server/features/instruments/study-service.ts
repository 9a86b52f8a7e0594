import { difference, printOf, quantity } from '#contracts/figures.ts';
import type { CloseStudy, KeyStudy, StartStudy, Studies, Study, StudyLine } from '#contracts/gauge-studies.ts';
import { quantityKindOf } from '#domain/units/quantity.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockInstrument } from './queries.ts';
import {
  findStandingReadings,
  findStudies,
  findWorking,
  insertAdoption,
  insertStudy,
  insertStudyReadings,
  lockStudy,
  type NewStudyReading,
  type StandingReading,
  type StudyRow,
  updateStudyClosed,
} from './study-queries.ts';
import { studyResultOf, wantedOf, workedOut } from './study-result.ts';

function lineOf(row: StudyRow): StudyLine {
  const { closedAt, closedById, closedBy } = row;
  return {
    id: row.id,
    instrument: { id: row.instrumentId, name: row.instrument },
    name: row.name,
    parts: row.parts,
    trials: row.trials,
    people: [...row.people],
    tolerance: row.tolerance === null ? null : difference(row.tolerance, printOf(row)),
    startedBy: { id: row.startedById, name: row.startedBy },
    startedAt: row.startedAt,
    closed:
      closedAt === null || closedById === null ? null : { by: { id: closedById, name: closedBy ?? '' }, at: closedAt },
    adopted: row.adopted,
    readingsTaken: row.taken,
    readingsWanted: wantedOf(row),
  };
}

export async function studies(sql: Sql, instrumentId: string | undefined): Promise<Studies> {
  return { items: (await findStudies(sql, instrumentId === undefined ? {} : { instrumentId })).map(lineOf) };
}

async function rowOf(sql: Sql, id: string): Promise<StudyRow> {
  const [row] = await findStudies(sql, { id });
  return found(row, 'such gauge study');
}

/** A study with its readings; what they say only when all are taken. */
export async function study(sql: Sql, id: string): Promise<Study> {
  const row = await rowOf(sql, id);
  const readings = await findStandingReadings(sql, id);
  const worked = workedOut(row, readings);
  const shown = worked !== undefined || row.closedAt !== null;
  return {
    ...lineOf(row),
    unit: row.unit,
    decimals: row.decimals,
    readings: readings.map(({ part, personId, trial, value, replaced }) => ({
      part,
      personId,
      trial,
      value: shown ? quantity(value, printOf(row)) : null,
      replaced,
    })),
    result: worked === undefined ? null : studyResultOf(worked, row),
  };
}

function refuse(pointer: string, detail: string): never {
  throw new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
}

/** Begins a study: which gauge, how many parts and trials, who reads. */
export async function startStudy(act: Act, asked: StartStudy): Promise<Study> {
  const instrument = found(await lockInstrument(act.sql, asked.instrumentId), 'such instrument');
  if (instrument.retired) throw new ProblemError('conflict', `${instrument.code} is out of use. Take another one.`);
  const { parts, trials, personIds } = asked;
  if (new Set(personIds).size < personIds.length) refuse('/personIds', 'Somebody is named twice.');
  const working = await findWorking(act.sql, personIds);
  const stranger = personIds.findIndex((id) => !working.has(id));
  if (stranger >= 0) refuse(`/personIds/${stranger}`, 'Nobody of the shop has this id.');
  const kind = quantityKindOf(instrument.kind);
  const tolerance = asked.tolerance === undefined ? null : baseOf(asked.tolerance, kind, '/tolerance');
  if (tolerance !== null && tolerance <= 0) refuse('/tolerance', 'A tolerance is more than nothing.');
  const name = asked.name.trim();
  const id = await insertStudy(act.sql, {
    instrumentId: instrument.id,
    name,
    parts,
    trials,
    tolerance,
    startedById: act.actor.id,
    personIds,
  });
  await act.event('gauge-study.started', { data: { instrument: instrument.code, name, parts, trials } });
  return study(act.sql, id);
}

async function openStudy(act: Act, id: string): Promise<StudyRow> {
  if (!(await lockStudy(act.sql, id))) found(undefined, 'such gauge study');
  const row = await rowOf(act.sql, id);
  if (row.closedAt !== null) {
    throw new ProblemError('conflict', 'This study is closed: what was read in it stays as it is. Start another one.');
  }
  return row;
}

type Keyed = KeyStudy['readings'][number];
const cellOf = ({ part, personId, trial }: Pick<Keyed, 'part' | 'personId' | 'trial'>) =>
  `${part} ${personId} ${trial}`;

interface Taking {
  readonly row: StudyRow;
  readonly standing: ReadonlyMap<string, StandingReading>;
  readonly range: { readonly low: number; readonly high: number };
  readonly keyedById: string;
}

/** One keyed reading as it is to be kept, or why it can't be. */
function taken(keyed: Keyed, index: number, { row, standing, range, keyedById }: Taking): NewStudyReading {
  const at = `/readings/${index}`;
  const { part, personId, trial } = keyed;
  if (part > row.parts) refuse(`${at}/part`, `This study has ${row.parts} parts.`);
  if (trial > row.trials) refuse(`${at}/trial`, `This study has ${row.trials} trials.`);
  if (!row.people.some(({ id }) => id === personId))
    refuse(`${at}/personId`, 'This person does not read in this study.');
  const value = baseOf(keyed.value, quantityKindOf(row.kind), `${at}/value`);
  if (value < range.low || value > range.high) {
    const detail = `${keyed.value.value} ${keyed.value.unit} is outside what ${row.instrument} can read. Look at the unit.`;
    throw new ProblemError('implausible', detail, { errors: [{ pointer: `${at}/value`, detail }] });
  }
  const before = standing.get(cellOf(keyed));
  const reason = keyed.reason?.trim() ?? '';
  if (before !== undefined && reason === '') {
    refuse(`${at}/reason`, `Part ${part}, trial ${trial} is read already. Give a reason to replace it.`);
  }
  return {
    studyId: row.id,
    personId,
    part,
    trial,
    value,
    keyedText: keyed.value.value,
    keyedUnit: keyed.value.unit,
    replacesId: before?.id ?? null,
    reason: before === undefined ? '' : reason,
    keyedById,
  };
}

/** Keeps readings of a study, all or none. */
export async function keyStudy(act: Act, asked: { id: string } & KeyStudy): Promise<Study> {
  const row = await openStudy(act, asked.id);
  const instrument = found(await lockInstrument(act.sql, row.instrumentId), 'such instrument');
  const cells = asked.readings.map(cellOf);
  const twice = cells.findIndex((cell, index) => cells.indexOf(cell) < index);
  if (twice >= 0) refuse(`/readings/${twice}`, 'The same part, person and trial stands further up.');
  const standing = new Map((await findStandingReadings(act.sql, row.id)).map((one) => [cellOf(one), one]));
  const { rangeLow: low, rangeHigh: high } = instrument;
  const taking: Taking = { row, standing, range: { low, high }, keyedById: act.actor.id };
  await insertStudyReadings(
    act.sql,
    asked.readings.map((keyed, index) => taken(keyed, index, taking)),
  );
  await act.event('gauge-study.read', { data: { instrument: row.instrument, name: row.name, readings: cells.length } });
  return study(act.sql, row.id);
}

/** Closes a study; the register may take its repeatability over, if it was read through. */
export async function closeStudy(act: Act, asked: { id: string } & CloseStudy): Promise<Study> {
  const row = await openStudy(act, asked.id);
  const readings = await findStandingReadings(act.sql, row.id);
  if (asked.adopt) {
    const wanting = wantedOf(row) - readings.length;
    if (wanting > 0) {
      refuse('/adopt', `${wanting} readings are wanting: a study that is not complete tells no repeatability.`);
    }
    const { sd = 0, degreesOfFreedom: freedom = 0 } = workedOut(row, readings)?.repeatability ?? {};
    const [repeatability, degreesOfFreedom] = [Math.ceil(sd), Math.floor(freedom)];
    if (repeatability === 0 || degreesOfFreedom === 0) {
      refuse(
        '/adopt',
        'The readings don’t scatter at all: the gauge is too coarse for these parts to tell its repeatability.',
      );
    }
    await insertAdoption(act.sql, { studyId: row.id, repeatability, degreesOfFreedom, adoptedById: act.actor.id });
  }
  await updateStudyClosed(act.sql, { id: row.id, closedById: act.actor.id });
  await act.event('gauge-study.closed', {
    data: { instrument: row.instrument, name: row.name, adopted: asked.adopt },
  });
  return study(act.sql, row.id);
}
