import { z } from 'zod';

/** Every way a request is refused on purpose. `type` on the wire is `urn:crosshatch:problem:<code>`. */
export const problems = {
  'invalid-request': { status: 400, title: 'The request is not of the expected form' },
  'malformed-json': { status: 400, title: 'The body is not JSON' },
  'idempotency-key-missing': { status: 400, title: 'A write needs an Idempotency-Key' },
  'not-signed-in': { status: 401, title: 'Nobody is signed in here' },
  'badge-wrong': { status: 401, title: 'That badge opens nothing' },
  'pin-wrong': { status: 401, title: 'That PIN is not right' },
  'not-allowed': { status: 403, title: 'Your role does not do this' },
  'foreign-origin': { status: 403, title: 'The request comes from another site' },
  'not-found': { status: 404, title: 'There is no such thing here' },
  'in-flight': { status: 409, title: 'The same write is still being done' },
  conflict: { status: 409, title: 'That no longer fits what is there' },
  'already-done': { status: 409, title: 'That was done already' },
  'bay-full': { status: 409, title: 'The bay is full' },
  'stock-short': { status: 409, title: 'There is not that much in stock' },
  'not-closed': { status: 409, title: 'Something is still open' },
  'too-big': { status: 413, title: 'That is too big' },
  'unsupported-media': { status: 415, title: 'That kind of body is not taken here' },
  'changed-meanwhile': { status: 412, title: 'Somebody changed it meanwhile' },
  'key-reused': { status: 422, title: 'That Idempotency-Key was used for something else' },
  'unit-wrong': { status: 422, title: 'That unit does not fit' },
  'unit-slip': { status: 422, title: 'That looks like the wrong unit' },
  implausible: { status: 422, title: 'That value is hardly possible' },
  'code-wrong': { status: 422, title: 'That code is mistyped or damaged' },
  'code-foreign': { status: 422, title: 'That label is another shop’s' },
  'csv-row': { status: 422, title: 'A row of the file is wrong' },
  refused: { status: 422, title: 'That cannot be done as asked' },
  'if-match-missing': { status: 428, title: 'Say which version you change' },
  'too-many': { status: 429, title: 'Too many tries' },
  internal: { status: 500, title: 'Something broke on our side' },
  'not-ready': { status: 503, title: 'Not ready yet' },
} as const satisfies Record<string, { status: number; title: string }>;
export type ProblemCode = keyof typeof problems;

export const problemType = (code: ProblemCode): string => `urn:crosshatch:problem:${code}`;

/** RFC 9457 problem details: what went wrong, where, and what to do. */
export const Problem = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().optional(),
    /** Where in the request: a JSON pointer, or `row 4, column unit` of a file. */
    errors: z.array(z.strictObject({ pointer: z.string(), detail: z.string() })).optional(),
    /** A corrected value to send instead, where there is one. */
    suggestion: z.strictObject({ value: z.string(), unit: z.string() }).optional(),
  })
  .meta({
    id: 'Problem',
    examples: [
      {
        type: 'urn:crosshatch:problem:unit-slip',
        title: 'That looks like the wrong unit',
        status: 422,
        detail: '3.4665 mm is 25.4 times less than this dimension can be. In inches it would be 88.049 mm.',
        suggestion: { value: '3.4665', unit: 'in' },
      },
    ],
  });
export type Problem = z.infer<typeof Problem>;
