import type { ProblemCode } from '#contracts/problems.ts';
import type { Quantity } from '#contracts/wire.ts';
import { ProblemError } from '#platform/problem.ts';

/** Which of the things a person keyed is meant; named as in JSON, a file has its own names for them. */
export type Field =
  | 'round'
  | 'dimension'
  | 'position'
  | 'repeat'
  | 'text'
  | 'unit'
  | 'instrumentCode'
  | 'partTemperature'
  | 'instrumentTemperature'
  | 'interval/go'
  | 'interval/noGo'
  | 'felt'
  | 'confirmReason';

/** What is wrong with one reading, or what is asked about it. */
export interface Fault {
  readonly field: Field;
  readonly code: Extract<
    ProblemCode,
    'unit-wrong' | 'unit-slip' | 'implausible' | 'refused' | 'not-found' | 'conflict'
  >;
  readonly detail: string;
  readonly suggestion?: Quantity;
}

/** True for what a reason given by the person settles; everything else has to be keyed anew. */
export const isQuestion = ({ code }: Fault): boolean => code === 'unit-slip' || code === 'implausible';

export interface FaultAt extends Fault {
  /** Counted from nothing, in the order they were sent. */
  readonly index: number;
}

/** The first fault says what kind of refusal it is; all of them are listed. */
export function refusalOf(faults: readonly FaultAt[]): ProblemError | undefined {
  const [first] = faults.toSorted((a, b) => Number(isQuestion(a)) - Number(isQuestion(b)));
  if (first === undefined) return undefined;
  const more = faults.length === 1 ? '' : ` And ${faults.length - 1} more: see errors.`;
  return new ProblemError(first.code, `${first.detail}${more}`, {
    errors: faults.map(({ index, field, detail }) => ({
      pointer: field === 'round' || field === 'dimension' ? `/${field}` : `/readings/${index}/${field}`,
      detail,
    })),
    ...(first.suggestion === undefined ? {} : { suggestion: first.suggestion }),
  });
}
