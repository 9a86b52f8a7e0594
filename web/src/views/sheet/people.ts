import type { BuildSheet } from '#contracts/hand-back.ts';

/** Initials as the shop writes them; of somebody the list doesn't name, made from the name. */
export function initialsOf(name: string, people: BuildSheet['people']): string {
  const known = people.find((person) => person.name === name);
  if (known !== undefined) return known.initials;
  return name
    .split(/\s+/)
    .map((part) => part.slice(0, 1))
    .join('');
}

const distinct = (names: readonly (string | null)[]): readonly string[] => [
  ...new Set(names.filter((name): name is string => name !== null && name !== '')),
];

/** Who stands for what on the sheet. */
export function marksOf(sheet: BuildSheet) {
  return {
    measured: distinct(sheet.findings.map(({ by }) => by.name)),
    built: distinct([...sheet.torque.flatMap(({ by }) => by), ...sheet.openings.map(({ closedBy }) => closedBy)]),
    proved: distinct(sheet.proofs.flatMap(({ by, signedBy }) => [by, signedBy])),
    released: distinct([sheet.handedBackBy?.name ?? null]),
  };
}
