import { newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';

interface PieceOf {
  readonly name: string;
  readonly expected: number;
  readonly layer?: string;
  readonly oneTime?: boolean;
  readonly matchedSet?: string;
}
interface StepOf {
  readonly title: string;
  readonly pieces?: readonly PieceOf[];
  readonly secondPerson?: boolean;
  readonly turnsEngine?: boolean;
  readonly fastenerSet?: string;
  readonly dimensionCode?: string;
}

/** A procedure as a test wrote it down, with the ids it was given: steps by title, pieces by name. */
export interface WrittenProcedure {
  readonly procedureId: string;
  readonly versionId: string;
  readonly steps: Readonly<Record<string, string>>;
  readonly pieces: Readonly<Record<string, string>>;
}

export async function insertProcedure(
  sql: SqlPool,
  of: {
    familyId: string;
    code: string;
    kind: 'strip' | 'assemble' | 'prove';
    steps: readonly StepOf[];
    published?: boolean;
  },
): Promise<WrittenProcedure> {
  const procedureId = newId();
  const versionId = newId();
  const steps: Record<string, string> = {};
  const pieces: Record<string, string> = {};
  await sql`
    insert into procedure (id, code, name, kind, family_id) values (${procedureId}, ${of.code}, ${of.code}, ${of.kind}, ${of.familyId})`;
  await sql`insert into procedure_version (id, procedure_id, number) values (${versionId}, ${procedureId}, 1)`;
  for (const [index, step] of of.steps.entries()) {
    const stepId = newId();
    steps[step.title] = stepId;
    await sql`
      insert into procedure_step (id, version_id, ordinal, title, second_person, turns_engine, fastener_set)
      values (${stepId}, ${versionId}, ${index + 1}, ${step.title}, ${step.secondPerson ?? false}, ${step.turnsEngine ?? false}, ${step.fastenerSet ?? null})`;
    if (step.dimensionCode !== undefined) {
      await sql`
        insert into step_reading (id, step_id, ordinal, dimension_code, round)
        values (${newId()}, ${stepId}, 1, ${step.dimensionCode}, ${of.kind === 'strip' ? 'as received' : 'as built'})`;
    }
    for (const [order, piece] of (step.pieces ?? []).entries()) {
      const pieceId = newId();
      pieces[piece.name] = pieceId;
      await sql`
        insert into step_piece (id, step_id, ordinal, name, expected, layer, one_time, matched_set)
        values (${pieceId}, ${stepId}, ${order + 1}, ${piece.name}, ${piece.expected}, ${piece.layer ?? null},
                ${piece.oneTime ?? false}, ${piece.matchedSet ?? null})`;
    }
  }
  if (of.published ?? true)
    await sql`update procedure_version set published_at = clock_timestamp() where id = ${versionId}`;
  return { procedureId, versionId, steps, pieces };
}

/** A short strip of the invented single: cover, caps with their dowels, head, cylinder. */
export const insertStrip = (sql: SqlPool, familyId: string): Promise<WrittenProcedure> =>
  insertProcedure(sql, {
    familyId,
    code: 'strip-h355',
    kind: 'strip',
    steps: [
      { title: 'Drain the coolant' },
      {
        title: 'Cover off',
        pieces: [
          { name: 'valve cover', expected: 1, layer: 'cover' },
          { name: 'cover bolt', expected: 4 },
        ],
      },
      {
        title: 'Caps off',
        secondPerson: true,
        pieces: [
          { name: 'cam cap', expected: 2, matchedSet: 'caps' },
          { name: 'cap dowel', expected: 8 },
        ],
      },
      { title: 'Head off', pieces: [{ name: 'head', expected: 1, layer: 'head' }] },
      {
        title: 'Cylinder off',
        pieces: [
          { name: 'cylinder', expected: 1, layer: 'cylinder' },
          { name: 'circlip', expected: 2, oneTime: true },
        ],
      },
    ],
  });
