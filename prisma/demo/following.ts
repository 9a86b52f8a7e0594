import { type StepStanding, standingsOf } from '../../server/domain/procedures/standing.ts';
import { isoOf } from './clock.ts';
import { demoFamilies } from './families/families.ts';
import type { PersonKey } from './people.ts';
import { type Act, tell, type Visit } from './visit.ts';
import { known, type ProcedureRow, type StepRow, there } from './world.ts';

/** A procedure that runs on a visit, with what was answered and marked so far. */
export interface Run {
  readonly visit: Visit;
  readonly id: string;
  readonly procedure: ProcedureRow;
  readonly answers: Map<string, string>;
  readonly marked: { readonly stepId: string; readonly mark: 'done' | 'skipped' | 'second person' }[];
}

export function startProcedure(visit: Visit, kind: 'STRIP' | 'CASE' | 'BOTTOM' | 'BUILD' | 'PROVE', act: Act): Run {
  const { world, engine } = visit;
  const procedure = there(
    engine.family.procedures.find(({ data }) => data.code === `${engine.family.code}-${kind}`),
    `the procedure ${kind}`,
  );
  const id = world.id('procedure_run', act.at);
  world.rows.add('procedure_run', {
    id,
    job_id: visit.jobId,
    version_id: procedure.versionId,
    started_by_id: known(world.people, act.by),
    started_at: isoOf(act.at),
  });
  tell(visit, 'procedure.started', act, { runId: id, procedure: procedure.data.name, version: 1 });
  return { visit, id, procedure, answers: new Map(), marked: [] };
}

/** The same facts the service reads: of the family, of the sheet, of the cylinder fitted now. */
function factsOf({ engine, revision }: Visit): ReadonlyMap<string, readonly string[]> {
  const { cycle, cooling } = demoFamilies[engine.family.code].figures;
  const { places, valves } = revision.sheet;
  const adjuster = ({ shim }: (typeof valves)[number]) => (shim === null ? 'screw' : 'shim under bucket');
  return new Map([
    ['cycle', [cycle]],
    ['cooling', [cooling]],
    ['bore', [places.some(({ plated }) => plated) ? 'plated' : 'not plated']],
    ['adjuster', [...new Set(valves.map(adjuster))]],
    ['size class', [String(engine.fitted.get('cylinder')?.size_class ?? 'standard')]],
  ]);
}

function standingOf(run: Run, step: StepRow): StepStanding['standing'] {
  const standings = standingsOf({
    steps: run.procedure.steps.map(({ id, data }) => ({
      id,
      secondPerson: data.secondPerson,
      question: data.asks?.code ?? null,
      onlyIf: data.onlyIf,
    })),
    marks: run.marked,
    answers: run.answers,
    facts: factsOf(run.visit),
  });
  return there(
    standings.find(({ stepId }) => stepId === step.id),
    'a standing',
  ).standing;
}

/** True when the step is to be done in this run, as far as is answered by now. */
export const stands = (run: Run, step: StepRow): boolean => standingOf(run, step) === 'to do';

export function mark(
  run: Run,
  step: StepRow,
  act: Act,
  of: { readonly as?: 'done' | 'skipped' | 'second person'; readonly reason?: string } = {},
): void {
  const { world } = run.visit;
  const as = of.as ?? 'done';
  run.marked.push({ stepId: step.id, mark: as });
  world.rows.add('step_mark', {
    id: world.id('step_mark', act.at),
    run_id: run.id,
    step_id: step.id,
    mark: as,
    round: 1,
    reason: of.reason ?? '',
    no_photo: as === 'done' && step.data.photo !== '' ? 'this shop is made up' : '',
    marked_by_id: known(world.people, act.by),
    marked_at: isoOf(act.at),
  });
}

function answer(run: Run, step: StepRow, choice: string, act: Act): void {
  const { world } = run.visit;
  run.answers.set(there(step.data.asks, 'a question').code, choice);
  world.rows.add('run_answer', {
    id: world.id('run_answer', act.at),
    run_id: run.id,
    step_id: step.id,
    choice,
    reason: '',
    supersedes_id: null,
    answered_by_id: known(world.people, act.by),
    answered_at: isoOf(act.at),
  });
}

/** Answers what the step asks (left out: the first choice, nothing amiss), and marks it; a stop point by two people. */
export function done(run: Run, step: StepRow, act: Act, answers: Readonly<Record<string, string>> = {}): void {
  const { asks, secondPerson } = step.data;
  if (asks !== null) answer(run, step, answers[asks.code] ?? there(asks.choices[0], 'a choice').code, act);
  mark(run, step, act);
  if (!secondPerson) return;
  const other: PersonKey = act.by === 'maren' ? 'bea' : 'maren';
  mark(run, step, { at: act.at + 60_000, by: other }, { as: 'second person' });
}

/** Every step that stands, one after the other, evenly over so many minutes. */
export function follow(run: Run, act: Act, within: number): void {
  const spacing = Math.max(2, Math.floor(within / run.procedure.steps.length)) * 60_000;
  run.procedure.steps.forEach((step, index) => {
    if (stands(run, step)) done(run, step, { at: act.at + index * spacing, by: act.by });
  });
}

/** Left in the middle of a step, for somebody else to go on with. */
export function interrupt(
  run: Run,
  title: string,
  act: Act,
  of: { readonly why: string; readonly loose: string },
): void {
  const { world } = run.visit;
  const step = there(
    run.procedure.steps.find(({ data }) => data.title === title),
    `the step ${title}`,
  );
  world.rows.add('run_interruption', {
    id: world.id('run_interruption', act.at),
    run_id: run.id,
    step_id: step.id,
    why: of.why,
    loose: of.loose,
    interrupted_by_id: known(world.people, act.by),
    interrupted_at: isoOf(act.at),
  });
  const ordinal = run.procedure.steps.indexOf(step) + 1;
  tell(run.visit, 'procedure.interrupted', act, {
    runId: run.id,
    procedure: run.procedure.data.name,
    step: ordinal,
    title,
    ...of,
  });
}
