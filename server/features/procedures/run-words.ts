import type { Because } from '#domain/procedures/standing.ts';
import type { StepRow } from './run-queries.ts';

const factWords: Readonly<Record<string, string>> = {
  cycle: 'the engine',
  cooling: 'its cooling',
  bore: 'the bore',
  adjuster: 'its adjuster',
  'size class': 'the size class',
};

const either = (list: readonly string[]): string =>
  list.length < 2 ? (list[0] ?? '') : `${list.slice(0, -1).join(', ')} or ${list.at(-1)}`;

/** Why a step is left out, or what has to be answered first: one sentence that names the fact or the question. */
export function becauseWords({ condition, known }: Because, steps: readonly StepRow[]): string {
  if ('fact' in condition) {
    const what = factWords[condition.fact] ?? condition.fact;
    const wanted = either(condition.oneOf);
    return known === null
      ? `Only where ${what} is ${wanted}, and of this one none is known.`
      : `Only where ${what} is ${wanted}; here: ${known}.`;
  }
  const asking = steps.find(({ asks }) => asks?.code === condition.question);
  const wordsOf = (code: string) => asking?.asks?.choices.find((choice) => choice.code === code)?.words ?? code;
  const wanted = either(condition.oneOf.map((code) => `“${wordsOf(code)}”`));
  if (asking === undefined) return `Only with the answer ${wanted}, and nothing asks for it.`;
  const where = `step ${asking.ordinal}, ${asking.title}`;
  return known === null
    ? `Only with the answer ${wanted} to ${where}.`
    : `Only with the answer ${wanted} to ${where}; the answer was “${wordsOf(known)}”.`;
}
