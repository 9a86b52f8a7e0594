import { type ProblemCode, problems } from '#contracts/problems.ts';

export interface ProblemExtras {
  readonly errors?: readonly { readonly pointer: string; readonly detail: string }[];
  readonly suggestion?: { readonly value: string; readonly unit: string };
  /** Facts a client may act on, such as the reasons against closing. */
  readonly [fact: string]: unknown;
}

/** A request refused on purpose: thrown by services, answered as RFC 9457 problem details. */
export class ProblemError extends Error {
  override readonly name = 'ProblemError';
  readonly code: ProblemCode;
  readonly extras: ProblemExtras;

  /** @param detail one or two sentences a technician understands: what is wrong, and what to do */
  constructor(code: ProblemCode, detail: string, extras: ProblemExtras = {}) {
    super(detail);
    this.code = code;
    this.extras = extras;
  }

  get status(): number {
    return problems[this.code].status;
  }
}

/**
 * A refusal that keeps what the act has found out so far, a count that differs say: its facts, its event and its key stand,
 * and the same key gets the same refusal. Whatever must not stand is written after it could be thrown.
 */
export class KeptRefusal extends ProblemError {}

/** Returns what was found, or refuses with 404 saying what was looked for. */
export function found<T>(thing: T | undefined | null, what: string): T {
  if (thing === undefined || thing === null) throw new ProblemError('not-found', `There is no ${what}.`);
  return thing;
}
