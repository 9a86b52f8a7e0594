import type { DemandLine, SetLotRule } from '#contracts/demands.ts';

/** A rule as it is being typed. */
export interface RuleEntry {
  readonly rule: SetLotRule['rule'];
  readonly grade: string;
  /** In millimetres. */
  readonly thickness: string;
}

/** The rule in force on a line, to be changed. */
export function ruleEntryOf({ lotRule }: DemandLine): RuleEntry {
  return {
    rule: lotRule?.rule ?? 'oldest',
    grade: lotRule?.grade ?? '',
    thickness: lotRule?.thicknesses[0]?.value ?? '',
  };
}

const millimetres = (text: string): string => text.trim().replace(',', '.');

/** All that the rule needs was typed. */
export function isRule({ rule, grade, thickness }: RuleEntry): boolean {
  if (rule === 'grade') return grade.trim() !== '';
  return rule === 'oldest' || Number(millimetres(thickness)) > 0;
}

export function ruleBody({ rule, grade, thickness }: RuleEntry) {
  if (rule === 'grade') return { rule, grade: grade.trim() };
  return rule === 'oldest' ? { rule } : { rule, thickness: { value: millimetres(thickness), unit: 'mm' } };
}
