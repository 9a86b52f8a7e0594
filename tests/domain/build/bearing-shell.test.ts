import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import { shellClearance, shellGrade } from '#domain/build/bearing-shell.ts';
import { nanometres } from '#domain/units/quantity.ts';

const um = (value: number) => nanometres(value * 1_000);
/** Classes of eight micrometres that touch, and a table in which a bigger journal asks for a thinner shell. */
const classes = (marks: string, from: number) =>
  [...marks].map((mark, at) => ({ mark, low: um(from + 8 * at), high: um(from + 8 * (at + 1)) }));
const journals = classes('123', 36_000);
const housings = classes('ABC', 39_000);
const choices = journals.flatMap((journal, j) =>
  housings.map((housing, h) => ({ journal: journal.mark, housing: housing.mark, grade: String(h - j) })),
);
const table = { journals, housings, choices };
const exactly = (value: number) => ({ diameter: um(value), uncertainty: um(0) });

it('takes the cell of the stamped marks', () => {
  expect(shellGrade(table, { journal: { mark: '2' }, housing: { mark: 'C' } })).toMatchObject({ ok: true, grade: '1' });
});

it('on the bound of two classes leaves open which, unless both have one grade', () => {
  const between = shellGrade(table, { journal: exactly(36_008), housing: { mark: 'B' } });
  expect(between).toMatchObject({ ok: true, grade: null, grades: ['1', '0'], journals: ['1', '2'] });
  const same = choices.map((cell) => ({ ...cell, grade: 'one' }));
  expect(shellGrade({ ...table, choices: same }, { journal: exactly(36_008), housing: { mark: 'B' } })).toMatchObject({
    grade: 'one',
  });
});

it('refuses a journal beyond every class, and an unknown mark', () => {
  expect(shellGrade(table, { journal: exactly(35_990), housing: { mark: 'B' } })).toEqual({
    ok: false,
    reason: { kind: 'outside-classes', of: 'journal' },
  });
  expect(shellGrade(table, { journal: { mark: '1' }, housing: { mark: 'Z' } })).toEqual({
    ok: false,
    reason: { kind: 'unknown-mark', of: 'housing', mark: 'Z' },
  });
});

test('measured more closely, never more grades are left; and the true grade is always among them', () => {
  const at = fc.integer({ min: 1, max: 23 });
  fc.assert(
    fc.property(at, at, fc.nat(4), fc.nat(4), (journal, housing, wide, more) => {
      const of = (uncertainty: number) =>
        shellGrade(table, {
          journal: { diameter: um(36_000 + journal), uncertainty: um(uncertainty) },
          housing: { diameter: um(39_000 + housing), uncertainty: um(uncertainty) },
        });
      const [fine, coarse] = [of(wide), of(wide + more)];
      if (!fine.ok || !coarse.ok) throw new Error('every diameter drawn lies in a class');
      expect(coarse.grades).toEqual(expect.arrayContaining([...fine.grades]));
      const truth = String(Math.floor(housing / 8) - Math.floor(journal / 8));
      expect(coarse.grades).toContain(truth);
    }),
    { seed: 36_039 },
  );
});

it('a thicker shell leaves twice as much less', () => {
  const [journal, housing] = [
    { low: 36_000_000, high: 36_002_000 },
    { low: 39_010_000, high: 39_012_000 },
  ];
  const shell = { low: um(1_490), high: um(1_492) };
  expect(shellClearance(journal, housing, shell)).toEqual({ low: 24_000, high: 32_000 });
  expect(shellClearance(journal, housing, { low: um(1_494), high: um(1_496) })).toEqual({ low: 16_000, high: 24_000 });
});
