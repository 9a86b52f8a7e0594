import { z } from 'zod';
import { mm } from './loose-bench-examples.ts';
import { Quantity, QuantityInterval, words } from './wire.ts';

const mark = words(20).min(1);
const sizeClass = z.strictObject({ mark, low: Quantity, high: Quantity });
/** The mark that is stamped on the part, or what was measured; `uncertainty` is U (k = 2), left out: 0. */
const size = z.union([
  z.strictObject({ mark }),
  z.strictObject({ diameter: Quantity, uncertainty: Quantity.optional() }),
]);

const classOf = (of: string, low: string, high: string) => ({ mark: of, low: mm(low), high: mm(high) });

/** Two classes of journal, two of housing, three grades of shell: invented figures. */
const example = {
  journals: [classOf('1', '35.984', '35.992'), classOf('2', '35.993', '36.000')],
  housings: [classOf('A', '39.000', '39.008'), classOf('B', '39.009', '39.016')],
  choices: [
    { journal: '1', housing: 'A', grade: 'brown' },
    { journal: '1', housing: 'B', grade: 'black' },
    { journal: '2', housing: 'A', grade: 'green' },
    { journal: '2', housing: 'B', grade: 'brown' },
  ],
  journal: { diameter: mm('35.988'), uncertainty: mm('0.002') },
  housing: { mark: 'B' },
  shells: [
    { grade: 'green', low: mm('1.482'), high: mm('1.486') },
    { grade: 'brown', low: mm('1.486'), high: mm('1.490') },
    { grade: 'black', low: mm('1.490'), high: mm('1.494') },
  ],
};

export const LooseShells = z
  .strictObject({
    journals: z.array(sizeClass).min(1).max(20),
    housings: z.array(sizeClass).min(1).max(20),
    /** The maker's table, a cell each. */
    choices: z
      .array(z.strictObject({ journal: mark, housing: mark, grade: mark }))
      .min(1)
      .max(400),
    journal: size,
    housing: size,
    /** Thickness of a shell of each grade, for the clearance that it leaves; left out: no clearance is told. */
    shells: z
      .array(z.strictObject({ grade: mark, low: Quantity, high: Quantity }))
      .max(40)
      .optional(),
  })
  .meta({ id: 'LooseShells', examples: [example] });
export type LooseShells = z.infer<typeof LooseShells>;

export const LooseShellsFound = z
  .strictObject({
    /** null: what was measured leaves open which class it is of, and the table gives several grades. */
    grade: z.string().nullable(),
    /** Every grade that it may be, with the oil clearance that it leaves where its thickness is given. */
    grades: z.array(z.strictObject({ grade: z.string(), clearance: QuantityInterval.nullable() })),
    /** Classes that journal and housing may be of. */
    journals: z.array(z.string()),
    housings: z.array(z.string()),
    words: z.string(),
  })
  .meta({ id: 'LooseShellsFound' });
export type LooseShellsFound = z.infer<typeof LooseShellsFound>;
