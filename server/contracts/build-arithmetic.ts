import { z } from 'zod';
import type { InputSort } from '#domain/build/calculations/calculation.ts';
import {
  type CalculationKind,
  calculationKinds,
  figuresOf,
  inputsOf,
  rowsOf,
} from '#domain/build/calculations/kinds.ts';
import type { Given } from '#domain/build/calculations/reading.ts';
import { calculationExamples } from './build-arithmetic-examples.ts';
import { Quantity, someWords } from './wire.ts';

export const CalculationName = z.enum(calculationKinds).meta({ id: 'CalculationName' });

export const LiftLine = z
  .strictObject({ at: Quantity, lift: Quantity })
  .meta({ id: 'LiftLine', description: 'Lift at the lobe, at crank degrees from top dead centre of the overlap' });
export const BoreLine = z
  .strictObject({
    name: someWords(60),
    bore: Quantity,
    boreMost: Quantity.optional(),
    pistonLeast: Quantity.optional(),
    pistonMost: Quantity.optional(),
  })
  .meta({
    id: 'BoreLine',
    description: 'A size to compare: bore as finished, and its piston, each from least to most',
  });

const schemaOfSort: Readonly<Record<InputSort, z.ZodType<Given[string]>>> = {
  length: Quantity,
  angle: Quantity,
  volume: Quantity,
  number: z.number().min(-1_000_000).max(1_000_000),
  count: z.int().min(-1000).max(1000),
  'lift-table': z.array(LiftLine).max(1000),
  bores: z.array(BoreLine).max(200),
};

/** "port-timing" → "PortTiming" */
const titled = (kind: CalculationKind): string =>
  kind.replace(/(^|-)(\w)/g, (_, _dash, letter: string) => letter.toUpperCase());

/** The body of one calculation: its inputs by name. Bounds are held by the domain, so that every fault has its words. */
export const calculationBody = (kind: CalculationKind) =>
  z
    .strictObject(
      Object.fromEntries(
        Object.entries(inputsOf(kind)).map(([name, { sort, optional, usual, unit }]) => {
          const schema = schemaOfSort[sort];
          const said = [unit === undefined ? '' : `In ${unit}.`, usual === undefined ? '' : `Left out: ${usual}.`];
          const described = said.join('') === '' ? schema : schema.meta({ description: said.join(' ').trim() });
          return [name, optional || usual !== undefined ? described.optional() : described];
        }),
      ),
    )
    .meta({ id: `Loose${titled(kind)}`, examples: [calculationExamples[kind]] });

const writtenFigures = (figures: Readonly<Record<string, unknown>>) =>
  z.strictObject(Object.fromEntries(Object.keys(figures).map((name) => [name, Quantity.nullable()])));

const cautions = z.array(z.strictObject({ code: z.string(), words: z.string() }));

/** The results of one calculation: each a figure with its unit, null where an input that it needs was left out. */
export const calculationFound = (kind: CalculationKind) =>
  z
    .strictObject({
      figures: writtenFigures(figuresOf(kind)),
      /** A line for each size that was compared; none elsewhere. */
      rows: z.array(z.strictObject({ name: z.string(), figures: writtenFigures(rowsOf(kind)) })),
      cautions,
    })
    .meta({ id: `Loose${titled(kind)}Found` });
