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

function ofSize({ code, origin, ...limit }: z.core.$ZodRawIssue<z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall>) {
  const [border, most, least] =
    code === 'too_big' ? [limit.maximum, 'at most', 'less than'] : [limit.minimum, 'at least', 'more than'];
  if (typeof border !== 'number' && typeof border !== 'bigint') return undefined;
  if (code === 'too_small' && origin === 'string' && Number(border) === 1) return 'must not be empty';
  const verb = origin === 'number' || origin === 'int' || origin === 'bigint' ? 'must be' : 'must have';
  return `${verb} ${limit.inclusive === false ? least : most} ${amount(origin, border)}`;
}

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
    case 'too_small':
      return ofSize(issue);
    default:
      return undefined;
  }
}
