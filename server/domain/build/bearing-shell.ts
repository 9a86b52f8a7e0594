import type { Nanometres } from '#domain/units/quantity.ts';

/** A size class of journals or of the bores they run in: its mark, and the diameters it takes in, both ends among them. */
export interface SizeClass {
  readonly mark: string;
  readonly low: Nanometres;
  readonly high: Nanometres;
}

/** What is known of one diameter: the mark that is stamped on the part, or what was measured, ± its expanded uncertainty. */
export type SizeKnown = { readonly mark: string } | { readonly diameter: Nanometres; readonly uncertainty: Nanometres };

/** One cell of the maker's table. */
export interface ShellChoice {
  readonly journal: string;
  readonly housing: string;
  readonly grade: string;
}

export interface ShellTable {
  readonly journals: readonly SizeClass[];
  readonly housings: readonly SizeClass[];
  readonly choices: readonly ShellChoice[];
}

export type ShellRefusal =
  | { readonly kind: 'unknown-mark'; readonly of: 'journal' | 'housing'; readonly mark: string }
  | { readonly kind: 'outside-classes'; readonly of: 'journal' | 'housing' }
  | { readonly kind: 'not-in-table'; readonly journal: string; readonly housing: string };

export type ShellAnswer =
  | {
      readonly ok: true;
      /** The one grade that the table gives; null: what was measured leaves open which class it is of, and they differ. */
      readonly grade: string | null;
      /** Every grade that it may be, in the order of the table. */
      readonly grades: readonly string[];
      /** Classes that each may be of, the smallest first. */
      readonly journals: readonly string[];
      readonly housings: readonly string[];
    }
  | { readonly ok: false; readonly reason: ShellRefusal };

/**
 * The grade of a plain bearing's shells by the size classes of journal and housing, as makers mark both and give a table
 * for them. A diameter whose interval reaches into two classes may be of either: where the table gives one grade for all
 * that it may be, that is the grade; where it gives several, none is chosen. Refused: a mark that the table does not have,
 * a diameter beyond every class even with its uncertainty (the part is worn or ground, and no marked shell is meant for
 * it), a pair of classes without a cell. Nanometres. Source: common practice, none cited; the maker's table decides.
 */
export function shellGrade(
  table: ShellTable,
  known: { readonly journal: SizeKnown; readonly housing: SizeKnown },
): ShellAnswer {
  const journals = classesOf(table.journals, known.journal);
  if (journals.length === 0) return refused('journal', known.journal);
  const housings = classesOf(table.housings, known.housing);
  if (housings.length === 0) return refused('housing', known.housing);
  for (const journal of journals) {
    for (const housing of housings) {
      if (!table.choices.some((cell) => cell.journal === journal && cell.housing === housing))
        return { ok: false, reason: { kind: 'not-in-table', journal, housing } };
    }
  }
  const grades = [
    ...new Set(
      table.choices
        .filter((cell) => journals.includes(cell.journal) && housings.includes(cell.housing))
        .map(({ grade }) => grade),
    ),
  ];
  const [only, ...others] = grades;
  return { ok: true, grade: others.length === 0 ? (only ?? null) : null, grades, journals, housings };
}

/** Marks of the classes that it may be of, the smallest first. */
function classesOf(classes: readonly SizeClass[], known: SizeKnown): readonly string[] {
  const may = classes.filter(({ mark, low, high }) =>
    'mark' in known
      ? mark === known.mark
      : known.diameter + known.uncertainty >= low && known.diameter - known.uncertainty <= high,
  );
  return may.toSorted((a, b) => a.low - b.low).map(({ mark }) => mark);
}

const refused = (of: 'journal' | 'housing', known: SizeKnown): ShellAnswer => ({
  ok: false,
  reason: 'mark' in known ? { kind: 'unknown-mark', of, mark: known.mark } : { kind: 'outside-classes', of },
});

/** Thickness of a shell in its crown, as the maker grades it. */
export interface ShellThickness {
  readonly low: Nanometres;
  readonly high: Nanometres;
}

/**
 * Oil clearance that two shells of a grade leave on the diameter: housing − journal − 2 × thickness, with all three at
 * their ends and with the uncertainty of what was measured. Nanometres. Source: plain geometry.
 */
export function shellClearance(
  journal: { readonly low: number; readonly high: number },
  housing: { readonly low: number; readonly high: number },
  shell: ShellThickness,
): { readonly low: number; readonly high: number } {
  return { low: housing.low - journal.high - 2 * shell.high, high: housing.high - journal.low - 2 * shell.low };
}
