import { type Calculation, type Figures, type Inputs, type WorkedOut, writeFigures } from './calculation.ts';
import { cautionWords } from './cautions.ts';
import { camPointsOf, camTimingOf, pistonMotionOf, valveToPistonOf } from './crank.ts';
import { boreComparisonOf, compressionOf, displacementOf, ringGapOf } from './cylinder.ts';
import { type InputFault, sayFault } from './faults.ts';
import { coolantOf, fillByWeightOf, mixtureOf, oilLevelOf } from './fluids.ts';
import { type Given, readInputs } from './reading.ts';
import { portHeightsOf, portTimingOf } from './two-stroke.ts';

/** Every calculation of a build by its name, in the order in which a list should show them. */
export const calculations = {
  displacement: displacementOf,
  'compression-ratio': compressionOf,
  'bore-comparison': boreComparisonOf,
  'ring-gap': ringGapOf,
  'piston-motion': pistonMotionOf,
  'valve-to-piston': valveToPistonOf,
  'cam-timing': camTimingOf,
  'cam-points': camPointsOf,
  'port-timing': portTimingOf,
  'port-heights': portHeightsOf,
  mixture: mixtureOf,
  coolant: coolantOf,
  'oil-level': oilLevelOf,
  'fill-by-weight': fillByWeightOf,
} as const;
export type CalculationKind = keyof typeof calculations;

type InputsOf<Kind extends CalculationKind> = keyof (typeof calculations)[Kind]['inputs'];
type FiguresOfKind<Kind extends CalculationKind> =
  | keyof (typeof calculations)[Kind]['figures']
  | keyof (typeof calculations)[Kind]['rows'];
/** The name of any input, and of any result. */
export type InputCode = { [Kind in CalculationKind]: InputsOf<Kind> }[CalculationKind];
export type FigureCode = { [Kind in CalculationKind]: FiguresOfKind<Kind> }[CalculationKind];

/** The kind that a text names, or undefined. */
export const findCalculation = (text: string): CalculationKind | undefined =>
  calculationKinds.find((kind) => kind === text);
export const calculationKinds = Object.keys(calculations) as readonly CalculationKind[];

/** The stated inputs and results of a kind. */
export const inputsOf = (kind: CalculationKind): Inputs => calculations[kind].inputs;
export const figuresOf = (kind: CalculationKind): Figures => calculations[kind].figures;
export const rowsOf = (kind: CalculationKind): Figures => calculations[kind].rows;

type Written = Readonly<Record<string, { readonly value: string; readonly unit: string } | null>>;

/** A calculation worked out and written: results with their units, lines of a comparison, cautions in words. */
export type Calculated =
  | {
      readonly ok: true;
      readonly figures: Written;
      readonly rows: readonly { readonly name: string; readonly figures: Written }[];
      readonly cautions: readonly { readonly code: string; readonly words: string }[];
    }
  | { readonly ok: false; readonly faults: readonly (InputFault & { readonly words: string })[] };

/**
 * Works a calculation out from what was given: the one way for the page, the loose bench and what is kept with a job.
 * Errors: every input that is missing, unreadable, out of its bounds or at odds with another, by its field.
 */
export function calculate(kind: CalculationKind, given: Given): Calculated {
  // The compiler has held each function against its own inputs; here they are all alike.
  const stated = calculations[kind] as unknown as Calculation<Inputs, Figures, Figures>;
  const read = readInputs(stated.inputs, given);
  const worked = read.ok ? stated.work(read.values) : read;
  if (!worked.ok) return { ok: false, faults: worked.faults.map((fault) => ({ ...fault, words: sayFault(fault) })) };
  return { ok: true, ...written(stated, worked) };
}

function written(stated: Calculation<Inputs, Figures, Figures>, worked: WorkedOut<Figures, Figures>) {
  return {
    figures: writeFigures(stated.figures, worked.figures),
    rows: worked.rows.map(({ name, figures }) => ({ name, figures: writeFigures(stated.rows, figures) })),
    cautions: worked.cautions.map((code) => ({ code, words: cautionWords[code] })),
  };
}
