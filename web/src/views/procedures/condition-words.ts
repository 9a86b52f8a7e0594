import type { ProcedureDocument } from '#contracts/procedure-documents.ts';
import type { en } from '../../words/en/index.ts';

/** What a step stands on, in one line: the question as it is asked, the answers as they are tapped. */
export function conditionWords(
  document: ProcedureDocument,
  condition: ProcedureDocument['steps'][number]['onlyIf'][number],
  words: typeof en.procedures,
): string {
  if ('fact' in condition) return words.onlyWhere(words.factNames[condition.fact], condition.oneOf.join(', '));
  const index = document.steps.findIndex(({ asks }) => asks?.code === condition.question);
  const asking = document.steps[index]?.asks;
  const told = condition.oneOf.map((code) => asking?.choices.find((choice) => choice.code === code)?.words ?? code);
  return words.onlyAfter(index + 1, told.join(' / '));
}
