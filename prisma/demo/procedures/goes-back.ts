import { backOn, type PieceData, type ProcedureData, type StepData } from './procedure.ts';

/** A step of the strip whose pieces go back on; with `which`, only those that are called so. */
type Source = readonly [title: string, which?: RegExp];

/** Of what came off with the piston, the rings go on before it does. */
export const ringPieces = /\bring$|^oil (rail|spacer)$/i;
export const notRings = /^(?!.*\bring$|oil (rail|spacer)$)/i;

function offAt(strip: ProcedureData, [title, which]: Source): readonly PieceData[] {
  const step = strip.steps.find((each) => each.title === title);
  if (step === undefined) throw new Error(`${strip.code} has no step "${title}"`);
  return backOn(step.pieces.filter(({ name }) => which === undefined || which.test(name)));
}

/** The steps of an assembly, each with the pieces that the strip took off at the steps it undoes. */
export function goingBack(
  steps: readonly StepData[],
  strip: ProcedureData,
  table: Readonly<Record<string, readonly Source[]>>,
): readonly StepData[] {
  const left = new Set(Object.keys(table));
  const filled = steps.map((each) => {
    const sources = table[each.title];
    left.delete(each.title);
    return sources === undefined ? each : { ...each, pieces: sources.flatMap((source) => offAt(strip, source)) };
  });
  if (left.size > 0) throw new Error(`The assembly has no step "${[...left].join('", "')}"`);
  return filled;
}
