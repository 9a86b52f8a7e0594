import { isoOf } from './clock.ts';
import type { ProcedureData, StepData } from './procedures/procedure.ts';
import type { ProcedureRow, StepRow, World } from './world.ts';

type Base = Pick<World, 'rows' | 'id' | 'origin' | 'people'>;

/** A procedure with its first version; insertAll publishes it once its steps are in. */
export function addProcedure(world: Base, familyId: string, data: ProcedureData): ProcedureRow {
  const { rows, id, origin } = world;
  const procedureId = id('procedure', origin);
  const versionId = id('procedure_version', origin);
  rows.add('procedure', { id: procedureId, code: data.code, name: data.name, kind: data.kind, family_id: familyId });
  rows.add('procedure_version', {
    id: versionId,
    procedure_id: procedureId,
    number: 1,
    note: data.note,
    edit: 1,
    drafted_by_id: world.people.get('maren') ?? '',
    drafted_at: isoOf(origin),
  });
  const steps = data.steps.map((step, index) => addStep(world, { versionId, step, ordinal: index + 1 }));
  return { id: procedureId, versionId, data, steps };
}

function addStep(
  world: Base,
  { versionId, step, ordinal }: { readonly versionId: string; readonly step: StepData; readonly ordinal: number },
): StepRow {
  const { rows, id, origin } = world;
  const stepId = id('procedure_step', origin);
  rows.add('procedure_step', {
    id: stepId,
    version_id: versionId,
    ordinal,
    section: step.section,
    title: step.title,
    words: step.words,
    second_person: step.secondPerson,
    fastener_set: step.fastenerSet,
    photo: step.photo,
    question: step.asks?.code ?? null,
    asks: step.asks?.words ?? '',
  });
  const pieceIds = step.pieces.map((piece, place) => {
    const pieceId = id('step_piece', origin);
    rows.add('step_piece', {
      id: pieceId,
      step_id: stepId,
      ordinal: place + 1,
      name: piece.name,
      expected: piece.expected,
      from_where: piece.from,
      why: piece.why,
      layer: piece.layer,
      one_time: piece.oneTime,
      matched_set: piece.matchedSet,
    });
    return pieceId;
  });
  addParts(world, stepId, step);
  return { id: stepId, data: step, pieceIds };
}

function addParts({ rows, id, origin }: Base, stepId: string, step: StepData): void {
  const add = (
    table: 'step_caution' | 'step_reading' | 'step_put_in' | 'step_choice' | 'step_condition',
    ordinal: number,
    row: Readonly<Record<string, string | number | null | readonly string[]>>,
  ) => rows.add(table, { id: id(table, origin), step_id: stepId, ordinal: ordinal + 1, ...row });
  step.cautions.forEach(({ hazard, words }, place) => {
    add('step_caution', place, { hazard, words });
  });
  step.readings.forEach(({ dimension, round }, place) => {
    add('step_reading', place, { dimension_code: dimension, round });
  });
  step.putIn.forEach(({ name, count, where }, place) => {
    add('step_put_in', place, { name, count, to_where: where });
  });
  (step.asks?.choices ?? []).forEach(({ code, words }, place) => {
    add('step_choice', place, { code, words });
  });
  step.onlyIf.forEach((condition, place) => {
    add('step_condition', place, {
      fact: 'fact' in condition ? condition.fact : null,
      question: 'question' in condition ? condition.question : null,
      one_of: condition.oneOf,
    });
  });
}
