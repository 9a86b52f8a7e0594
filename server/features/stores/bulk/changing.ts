import type { z } from 'zod';
import type { Right } from '#contracts/rights.ts';
import { refusals } from '#platform/http/feature.ts';
import { ProblemError } from '#platform/problem.ts';

interface Changing<Asked extends z.ZodType, Told extends z.ZodType> {
  /** What is changed, in the plural: "bins". */
  readonly what: string;
  readonly right: Right;
  readonly body: Asked;
  readonly reply: Told;
}

/**
 * The two routes of changing several things at once: the check does it, with every rule that the database holds, and
 * undoes it (`tried`), so that it tells what the change itself will.
 */
export function changing<Asked extends z.ZodType, Told extends z.ZodType>(of: Changing<Asked, Told>) {
  const { what, right, body, reply } = of;
  const asked = { tags: ['stores'], body };
  const refused = refusals(400, 401, 403, 404, 409, 422);
  return {
    check: {
      config: { right },
      schema: {
        ...asked,
        summary: `What a change of several ${what} would do to each; nothing is kept`,
        response: { 200: reply, ...refused },
      },
    },
    change: {
      config: { right },
      schema: {
        ...asked,
        summary: `Change several ${what} in one act: all of them, or none`,
        response: { 201: reply, ...refused },
      },
    },
  };
}

interface FactChanged<Fact extends string> {
  readonly fact: Fact;
  readonly from: string;
  readonly to: string;
}

const told = (value: string | number | boolean | null): string =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value ?? '');

/** Which of these facts differ, from what to what, in words: yes and no; empty for nothing. */
export function differences<Fact extends string>(
  facts: readonly Fact[],
  from: Readonly<Record<Fact, string | number | boolean | null>>,
  to: Readonly<Record<Fact, string | number | boolean | null>>,
): FactChanged<Fact>[] {
  return facts
    .filter((fact) => from[fact] !== to[fact])
    .map((fact) => ({ fact, from: told(from[fact]), to: told(to[fact]) }));
}

/** Refuses a change that names nothing to change. */
export function refuseNothing(isNothing: boolean): void {
  if (!isNothing) return;
  throw new ProblemError('refused', 'Nothing is said that should change: name at least one fact.', {
    errors: [{ pointer: '', detail: 'names no fact to change' }],
  });
}
