import type { z } from 'zod';

const kinds: Readonly<Record<string, string>> = {
  string: 'must be text',
  number: 'must be a number',
  int: 'must be a whole number',
  boolean: 'must be true or false',
  array: 'must be a list',
  object: 'must be an object',
  record: 'must be an object',
  null: 'must be null',
};

const listed = (values: readonly unknown[]): string => values.map((value) => JSON.stringify(value)).join(', ');

/** How much of something: characters of a text, entries of a list, or the number itself. */
function amount(origin: string, limit: number | bigint): string {
  const one = Number(limit) === 1;
  if (origin === 'string') return `${limit} ${one ? 'character' : 'characters'}`;
  return origin === 'array' || origin === 'set' ? `${limit} ${one ? 'entry' : 'entries'}` : String(limit);
}

const numbers: ReadonlySet<string> = new Set(['number', 'int', 'bigint']);
const sized = (origin: string, bound: string, limit: number | bigint): string =>
  `${numbers.has(origin) ? 'must be' : 'must have'} ${bound} ${amount(origin, limit)}`;

/** What is wrong with one field of a request, in words for whoever keyed it; undefined: the schema says it itself. */
export function faultWords(issue: z.core.$ZodRawIssue): string | undefined {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined ? 'is missing' : kinds[issue.expected];
    case 'invalid_value':
      if (issue.input === undefined) return 'is missing';
      return `must be ${issue.values.length === 1 ? '' : 'one of '}${listed(issue.values)}`;
    case 'unrecognized_keys':
      return `has ${listed(issue.keys)}, which is not known here`;
    case 'too_big':
      return sized(issue.origin, issue.inclusive === false ? 'less than' : 'at most', issue.maximum);
    case 'too_small':
      if (issue.origin === 'string' && Number(issue.minimum) === 1) return 'must not be empty';
      return sized(issue.origin, issue.inclusive === false ? 'more than' : 'at least', issue.minimum);
    default:
      return undefined;
  }
}
