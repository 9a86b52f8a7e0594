import type { ProcedureDocument } from '#contracts/procedure-documents.ts';
import type { Condition, Hazard } from '#domain/procedures/document.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export type Layer = 'cover' | 'head' | 'cylinder' | 'case';
export type Round = 'as received' | 'after work' | 'as built';

/** A step of a version with what it says and asks, in its order. */
export interface StepText {
  readonly id: string;
  readonly ordinal: number;
  readonly section: string;
  readonly title: string;
  readonly words: string;
  readonly secondPerson: boolean;
  readonly turnsEngine: boolean;
  readonly fastenerSet: string | null;
  readonly photo: string;
  readonly cautions: readonly { readonly hazard: Hazard; readonly words: string }[];
  readonly putIn: readonly { readonly name: string; readonly count: number; readonly where: string }[];
  readonly asks: {
    readonly code: string;
    readonly words: string;
    readonly choices: readonly { readonly code: string; readonly words: string }[];
  } | null;
  readonly onlyIf: readonly Condition[];
}

/** The columns of StepText of `procedure_step s`. */
export const stepColumns = (sql: Sql) => sql`
  s.id, s.ordinal, s.section, s.title, s.words, s.second_person as "secondPerson", s.turns_engine as "turnsEngine", s.fastener_set as "fastenerSet", s.photo,
  coalesce((select json_agg(json_build_object('hazard', c.hazard, 'words', c.words) order by c.ordinal)
            from step_caution c where c.step_id = s.id), '[]') as cautions,
  coalesce((select json_agg(json_build_object('name', i.name, 'count', i.count, 'where', i.to_where) order by i.ordinal)
            from step_put_in i where i.step_id = s.id), '[]') as "putIn",
  case when s.question is not null then json_build_object('code', s.question, 'words', s.asks, 'choices',
    coalesce((select json_agg(json_build_object('code', h.code, 'words', h.words) order by h.ordinal)
              from step_choice h where h.step_id = s.id), '[]')) end as asks,
  coalesce((select json_agg(case when o.fact is not null then json_build_object('fact', o.fact, 'oneOf', o.one_of)
                            else json_build_object('question', o.question, 'oneOf', o.one_of) end order by o.ordinal)
            from step_condition o where o.step_id = s.id), '[]') as "onlyIf"`;

export interface PieceOfVersion {
  readonly id: string;
  readonly name: string;
  readonly expected: number;
  readonly fromWhere: string;
  readonly why: string;
  readonly layer: Layer | null;
  readonly oneTime: boolean;
  readonly matchedSet: string | null;
}

export interface StepOfVersion extends StepText {
  readonly readings: readonly { readonly dimension: string; readonly round: Round }[];
  readonly pieces: readonly PieceOfVersion[];
}

/** Every step of a version in full. */
export async function findStepsOfVersion(sql: Sql, versionId: string): Promise<readonly StepOfVersion[]> {
  return sql<StepOfVersion[]>`
    select ${stepColumns(sql)},
           coalesce((select json_agg(json_build_object('dimension', g.dimension_code, 'round', g.round) order by g.ordinal)
                     from step_reading g where g.step_id = s.id), '[]') as readings,
           coalesce((select json_agg(json_build_object('id', p.id, 'name', p.name, 'expected', p.expected, 'fromWhere', p.from_where,
                              'why', p.why, 'layer', p.layer, 'oneTime', p.one_time, 'matchedSet', p.matched_set) order by p.ordinal)
                     from step_piece p where p.step_id = s.id), '[]') as pieces
    from procedure_step s where s.version_id = ${versionId} order by s.ordinal`;
}

/** Writes a document's steps as rows of a version that is not published yet; one statement a table. */
export async function insertSteps(sql: Sql, versionId: string, { steps }: ProcedureDocument): Promise<void> {
  const rows = steps.map((step, index) => ({ id: newId(), ordinal: index + 1, ...step }));
  const parts = rows.flatMap(({ id: step_id, cautions, pieces, putIn, readings, asks, onlyIf }) => ({
    cautions: cautions.map((one, index) => ({ ...one, id: newId(), step_id, ordinal: index + 1 })),
    pieces: pieces.map(({ from, oneTime, matchedSet, ...one }, index) => ({
      ...one,
      id: newId(),
      step_id,
      ordinal: index + 1,
      from_where: from,
      one_time: oneTime,
      matched_set: matchedSet,
    })),
    putIn: putIn.map(({ where, ...one }, index) => ({
      ...one,
      id: newId(),
      step_id,
      ordinal: index + 1,
      to_where: where,
    })),
    readings: readings.map(({ dimension, round }, index) => ({
      id: newId(),
      step_id,
      ordinal: index + 1,
      dimension_code: dimension,
      round,
    })),
    choices: (asks?.choices ?? []).map((one, index) => ({ ...one, id: newId(), step_id, ordinal: index + 1 })),
    conditions: onlyIf.map(({ oneOf, ...one }, index) => ({
      id: newId(),
      step_id,
      ordinal: index + 1,
      fact: 'fact' in one ? one.fact : null,
      question: 'question' in one ? one.question : null,
      one_of: oneOf,
    })),
  }));
  const json = (list: readonly object[]) => JSON.stringify(list);
  await sql`
    insert into procedure_step (id, version_id, ordinal, section, title, words, second_person, turns_engine, fastener_set, photo, question, asks)
    select id, ${versionId}, ordinal, section, title, words, second_person, turns_engine, fastener_set, photo, question, asks
    from json_populate_recordset(null::procedure_step, ${json(
      rows.map(({ id, ordinal, section, title, words, secondPerson, turnsEngine, fastenerSet, photo, asks }) => ({
        id,
        ordinal,
        section,
        title,
        words,
        second_person: secondPerson,
        turns_engine: turnsEngine === true,
        fastener_set: fastenerSet,
        photo,
        question: asks?.code ?? null,
        asks: asks?.words ?? '',
      })),
    )}::text::json)`;
  await sql`insert into step_caution select * from json_populate_recordset(null::step_caution, ${json(parts.flatMap(({ cautions }) => cautions))}::text::json)`;
  await sql`insert into step_piece select * from json_populate_recordset(null::step_piece, ${json(parts.flatMap(({ pieces }) => pieces))}::text::json)`;
  await sql`insert into step_put_in select * from json_populate_recordset(null::step_put_in, ${json(parts.flatMap(({ putIn }) => putIn))}::text::json)`;
  await sql`insert into step_reading select * from json_populate_recordset(null::step_reading, ${json(parts.flatMap(({ readings }) => readings))}::text::json)`;
  await sql`insert into step_choice select * from json_populate_recordset(null::step_choice, ${json(parts.flatMap(({ choices }) => choices))}::text::json)`;
  await sql`insert into step_condition select * from json_populate_recordset(null::step_condition, ${json(parts.flatMap(({ conditions }) => conditions))}::text::json)`;
}
