import { expect, test } from 'vitest';
import { z } from 'zod';
import { faultWords } from '#platform/http/fault-words.ts';

const Body = z.strictObject({
  name: z.string().min(1).max(4),
  kind: z.enum(['strip', 'prove']),
  shape: z.literal(1),
  count: z.int().min(1).max(9),
  over: z.number().gt(0).optional(),
  lines: z.array(z.string()).min(1).max(2),
  code: z
    .string()
    .regex(/^[A-Z]+$/, 'needs capitals')
    .optional(),
});
const good = { name: 'Head', kind: 'strip', shape: 1, count: 2, lines: ['a'] };
const told = (change: object): readonly string[] =>
  Body.safeParse({ ...good, ...change }, { error: faultWords }).error?.issues.map(
    ({ path, message }) => `${path.join('/')} ${message}`,
  ) ?? [];

test('what is wrong with a field of a request is said in words, each limit with its number', () => {
  expect(told({})).toEqual([]);
  expect(told({ name: undefined, kind: undefined })).toEqual(['name is missing', 'kind is missing']);
  expect(told({ name: 7 })).toEqual(['name must be text']);
  expect(told({ name: '' })).toEqual(['name must not be empty']);
  expect(told({ name: 'Cylinder' })).toEqual(['name must have at most 4 characters']);
  expect(told({ kind: 'polish' })).toEqual(['kind must be one of "strip", "prove"']);
  expect(told({ shape: 2 })).toEqual(['shape must be 1']);
  expect(told({ count: 0 })).toEqual(['count must be at least 1']);
  expect(told({ count: 2.5 })).toEqual(['count must be a whole number']);
  expect(told({ over: 0 })).toEqual(['over must be more than 0']);
  expect(told({ lines: [] })).toEqual(['lines must have at least 1 entry']);
  expect(told({ lines: 'a' })).toEqual(['lines must be a list']);
  expect(told({ colour: 'red' })).toEqual([' has "colour", which is not known here']);
});

test('a schema that says itself what it needs is not spoken over', () => {
  expect(told({ code: 'a' })).toEqual(['code needs capitals']);
});
