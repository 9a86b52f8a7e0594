import type { KeepWorkedFigure } from '#contracts/worked-figures.ts';
import { type CalculationKind, calculate } from '#domain/build/calculations/kinds.ts';
import type { Given } from '#domain/build/calculations/reading.ts';
import { ProblemError } from '#platform/problem.ts';
import { type Kept, keptPane } from './kept-panes.ts';

/** Works a calculation out, or refuses the request with a pointer to every input that is wrong. `at`: where they are. */
export function calculated(kind: CalculationKind, given: Given, at = '') {
  const worked = calculate(kind, given);
  if (worked.ok) {
    const { figures, rows, cautions } = worked;
    return { figures: { ...figures }, rows: [...rows], cautions: [...cautions] };
  }
  const errors = worked.faults.map(({ field, words }) => ({ pointer: `${at}/${field}`, detail: words }));
  const wrongUnit = worked.faults.every(({ reason }) => reason === 'unit-wrong');
  const said = errors.map(({ pointer, detail }) => `At ${pointer}: ${detail}`).join(' ');
  throw new ProblemError(wrongUnit ? 'unit-wrong' : 'refused', said, { errors });
}

/** Works out what is to be kept with a job, from what was given alone. */
export function workedOut(asked: KeepWorkedFigure): Kept {
  switch (asked.kind) {
    case 'fastener-set':
    case 'wrench':
    case 'ring-clock':
    case 'whole-head':
    case 'bearing-shells':
      return keptPane(asked.kind, asked.given);
    default:
      return calculated(asked.kind, asked.given, '/given');
  }
}
