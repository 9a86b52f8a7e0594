import type { DemandLine } from '#contracts/demands.ts';
import { ruleWords } from '#domain/stock/lot-rule.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { millimetresOrNull } from '../parts/thickness.ts';
import type { DemandRow } from './queries.ts';

type Kept = NonNullable<DemandRow['lotRule']>;

/** The rule in force on a line, with its thicknesses as they are read and its words. */
export function lotRuleWire({ thicknessNm, ...kept }: Kept): NonNullable<DemandLine['lotRule']> {
  const thicknesses = thicknessNm.flatMap((nm) => millimetresOrNull(nm) ?? []);
  return { ...kept, thicknesses, words: wordsOf({ thicknessNm, ...kept }) };
}

function wordsOf({ rule, thicknessNm, othersAny, grade }: Kept): string {
  switch (rule) {
    case 'oldest':
      return '';
    case 'grade':
      return ruleWords({ rule, grade });
    case 'exact thickness':
      return ruleWords({ rule, thicknesses: thicknessNm.map(nanometres), othersAny });
  }
}
