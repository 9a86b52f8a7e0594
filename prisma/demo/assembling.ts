import { pull } from './assembly.ts';
import type { Bench } from './bench.ts';
import { done, mark, type Run, stands } from './following.ts';
import { measure } from './measuring.ts';
import { movePiece, type Opening } from './tally.ts';
import { type Act, tell } from './visit.ts';
import { type StepRow, there } from './world.ts';

export interface Assembling extends Act {
  /** The step that is not done any more. */
  readonly before: string;
  /** Minutes for all of it. */
  readonly within: number;
  /** Steps that are left out on purpose, with the reason. */
  readonly skipped: Readonly<Record<string, string>>;
}

const minutes = (count: number): number => count * 60_000;

/** The pieces that a step names, out of their tray: what is used once is new. */
function putBackAt(opening: Opening, step: StepRow, act: Act): void {
  const back = step.data.pieces.map(({ name, expected }) => ({ name, count: expected }));
  if (back.length === 0) return;
  for (const { name, count } of back) {
    const piece = there(
      opening.pieces.find((each) => each.name === name && each.loose >= count),
      `${name}, loose`,
    );
    movePiece(opening, piece, { ...act, act: piece.oneTime ? 'renewed' : 'fitted', count });
  }
  tell(opening.visit, 'piece.fitted', act, { pieces: back });
}

/** Follows an assembly up to a step: each piece back in its place, each set pulled, each reading taken, and marked. */
export function assemble(
  { opening, bench, run }: { readonly opening: Opening; readonly bench: Bench; readonly run: Run },
  of: Assembling,
): void {
  const { steps } = run.procedure;
  const last = steps.findIndex(({ data }) => data.title === of.before);
  const spacing = Math.floor(of.within / last);
  steps.slice(0, last).forEach((step, index) => {
    if (!stands(run, step)) return;
    const act = { at: of.at + minutes(index * spacing), by: of.by };
    const { title, readings, fastenerSet } = step.data;
    const reason = of.skipped[title];
    if (reason !== undefined) {
      mark(run, step, act, { as: 'skipped', reason });
      return;
    }
    const dimensions = readings.map(({ dimension }) => dimension);
    if (dimensions.length > 0) measure(bench, { ...act, dimensions, round: 'as built', apart: 1, worn: 0.2 });
    putBackAt(opening, step, act);
    if (fastenerSet !== null) pull(opening.visit, fastenerSet, { ...act, at: act.at + minutes(1) });
    done(run, step, { ...act, at: act.at + minutes(spacing - 2) });
  });
}
