import fc from 'fast-check';

/** What those who use the stores do, and how often of a hundred or so acts. */
const often = {
  'want more': 3,
  reserve: 10,
  hold: 5,
  release: 4,
  reassign: 5,
  issue: 12,
  'bring back': 7,
  cancel: 5,
  quote: 3,
  'say yes': 3,
  'say no': 3,
  receive: 6,
  count: 6,
  scrap: 6,
  transfer: 9,
  'take in used': 3,
  'take in by serial': 3,
  buy: 7,
  'send back': 5,
  replace: 3,
  'withdraw replacement': 4,
  rule: 6,
  'reserve of a lot': 8,
  mark: 5,
  promise: 2,
  'begin a sheet': 3,
  'count a sheet': 12,
  'count again': 7,
  'settle a count': 8,
  'give a sheet up': 1,
  'close bins': 4,
  'open bins': 5,
  order: 4,
  'move days': 5,
  'take a delivery': 4,
} as const;
export type ActKind = keyof typeof often;
export const actKinds = Object.keys(often) as ActKind[];

export const [jobCount, partCount, binCount] = [5, 4, 3];

const pick = (most: number) => fc.nat(most - 1);

/** One act of somebody, on the so-many-th job, part, lot and bin of what there is by then. */
const act = fc.record({
  what: fc.constantFrom(...actKinds.flatMap((kind) => Array.from({ length: often[kind] }, () => kind))),
  job: pick(jobCount),
  toJob: pick(jobCount),
  part: pick(partCount),
  lot: pick(60),
  bin: pick(binCount),
  pieces: fc.integer({ min: 1, max: 3 }),
  whole: fc.boolean(),
  /** The network swallowed the answer: the same write is sent once more. */
  again: pick(8).map((drawn) => drawn === 0),
});
export type Act = typeof act extends fc.Arbitrary<infer One> ? One : never;

/** What each of so many people does, one act after the other, between two quiet points. */
export const daysOf = (people: number, acts: number): fc.Arbitrary<Act[][]> =>
  fc.array(fc.array(act, { minLength: acts, maxLength: acts }), { minLength: people, maxLength: people });
