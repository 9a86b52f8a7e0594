import { type Print, roundedInterval } from '#contracts/figures.ts';
import type { LooseShells, LooseShellsFound } from '#contracts/loose-shells.ts';
import type { Quantity } from '#contracts/wire.ts';
import {
  type ShellRefusal,
  type ShellThickness,
  type SizeClass,
  type SizeKnown,
  shellClearance,
  shellGrade,
} from '#domain/build/bearing-shell.ts';
import { type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { ProblemError } from '#platform/problem.ts';
import { lengthAt, refuse } from './body.ts';

const print: Print = { unit: 'mm', decimals: 3 };
/** Far past any journal, and still exact when several are added up. */
const MOST = 10_000_000_000;

function sizeAt(given: Quantity, pointer: string): Nanometres {
  const length = lengthAt(given, pointer);
  if (length <= 0) refuse(pointer, 'must be above zero.');
  return length > MOST ? refuse(pointer, 'is more than ten metres: no journal is.') : length;
}

function boundsAt({ low, high }: { low: Quantity; high: Quantity }, pointer: string): ShellThickness {
  const bounds = { low: sizeAt(low, `${pointer}/low`), high: sizeAt(high, `${pointer}/high`) };
  return bounds.low > bounds.high ? refuse(pointer, 'The lower end lies above the upper.') : bounds;
}

function classesAt(given: LooseShells['journals'], pointer: string): readonly SizeClass[] {
  return given.map(({ mark, ...bounds }, at) => {
    if (given.findIndex((other) => other.mark === mark) < at)
      refuse(`${pointer}/${at}/mark`, `Class ${mark} is there twice.`);
    return { mark, ...boundsAt(bounds, `${pointer}/${at}`) };
  });
}

function knownAt(given: LooseShells['journal'], pointer: string): SizeKnown {
  if ('mark' in given) return given;
  const uncertainty =
    given.uncertainty === undefined ? nanometres(0) : lengthAt(given.uncertainty, `${pointer}/uncertainty`);
  if (uncertainty < 0 || uncertainty > MOST) refuse(`${pointer}/uncertainty`, 'is no uncertainty of a diameter.');
  return { diameter: sizeAt(given.diameter, `${pointer}/diameter`), uncertainty };
}

function refuseTwice(choices: LooseShells['choices']): void {
  choices.forEach(({ journal, housing }, at) => {
    if (choices.findIndex((cell) => cell.journal === journal && cell.housing === housing) < at)
      refuse(`/choices/${at}`, `Journal ${journal} in housing ${housing} is there twice.`);
  });
}

function refusalOf(reason: ShellRefusal): ProblemError {
  const said = (pointer: string, detail: string) =>
    new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
  switch (reason.kind) {
    case 'unknown-mark':
      return said(`/${reason.of}/mark`, `The table has no class ${reason.mark} of ${reason.of}s.`);
    case 'outside-classes':
      return said(
        `/${reason.of}/diameter`,
        `The ${reason.of} lies in none of the classes: it is worn or ground, and no marked shell is meant for it.`,
      );
    case 'not-in-table':
      return said('/choices', `The table has no cell for journal ${reason.journal} in housing ${reason.housing}.`);
  }
}

/** Ends of what is known of a diameter: as measured, or anywhere in its class. */
function endsOf(known: SizeKnown, classes: readonly SizeClass[]): { readonly low: number; readonly high: number } {
  if ('diameter' in known) return { low: known.diameter - known.uncertainty, high: known.diameter + known.uncertainty };
  return classes.find(({ mark }) => mark === known.mark) ?? { low: 0, high: 0 };
}

/** The grade of shell by the classes of journal and housing, and the clearance that each grade in question leaves. */
export function looseShells(body: LooseShells): LooseShellsFound {
  const [journals, housings] = [classesAt(body.journals, '/journals'), classesAt(body.housings, '/housings')];
  refuseTwice(body.choices);
  const known = { journal: knownAt(body.journal, '/journal'), housing: knownAt(body.housing, '/housing') };
  const shells = new Map(
    (body.shells ?? []).map(({ grade, ...bounds }, at) => [grade, boundsAt(bounds, `/shells/${at}`)] as const),
  );
  const answer = shellGrade({ journals, housings, choices: body.choices }, known);
  if (!answer.ok) throw refusalOf(answer.reason);
  const grades = answer.grades.map((grade) => {
    const shell = shells.get(grade);
    if (shell === undefined) return { grade, clearance: null };
    const room = shellClearance(endsOf(known.journal, journals), endsOf(known.housing, housings), shell);
    return { grade, clearance: roundedInterval(room.low, room.high, print) };
  });
  const classes = `journal ${answer.journals.join(' or ')}, housing ${answer.housings.join(' or ')}`;
  return {
    grade: answer.grade,
    grades,
    journals: [...answer.journals],
    housings: [...answer.housings],
    words:
      answer.grade === null
        ? `${answer.grades.join(' or ')}, by ${classes}: measure again, more closely, or gauge the clearance with each.`
        : `${answer.grade}, by ${classes}.`,
  };
}
