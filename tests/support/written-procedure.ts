import fc from 'fast-check';
import {
  facts,
  factValues,
  hazards,
  type ProcedureDocument,
  readingRounds,
  type StepInDocument,
} from '#domain/procedures/document.ts';

export const writtenStep = (title: string, of: Partial<StepInDocument> = {}): StepInDocument => ({
  section: '',
  title,
  words: '',
  cautions: [],
  pieces: [],
  putIn: [],
  fastenerSet: null,
  readings: [],
  secondPerson: false,
  photo: '',
  asks: null,
  onlyIf: [],
  ...of,
});

/** A short strip that branches by what is found in the bore, with a stop point for two. */
export const branching = (code: string, of: Partial<ProcedureDocument> = {}): ProcedureDocument => ({
  shape: 1,
  code,
  name: `Branching ${code}`,
  kind: 'strip',
  family: 'H355',
  note: '',
  steps: [
    writtenStep('Look at the bore', {
      section: 'Look',
      cautions: [{ hazard: 'cuts', words: 'Edges cut.' }],
      photo: 'The bore all round',
      asks: {
        code: 'bore-seen',
        words: 'What is seen in the bore?',
        choices: [
          { code: 'sound', words: 'Sound' },
          { code: 'scored', words: 'Scored' },
        ],
      },
    }),
    writtenStep('Wrap it for the plater', {
      section: 'Look',
      cautions: [{ hazard: 'plated-bore dust', words: 'Never dry.' }],
      onlyIf: [{ question: 'bore-seen', oneOf: ['scored'] }],
    }),
    writtenStep('Two-stroke only', { onlyIf: [{ fact: 'cycle', oneOf: ['two-stroke'] }] }),
    writtenStep('Circlip out', { section: 'Piston', secondPerson: true }),
    writtenStep('Tidy up', { section: 'Piston' }),
  ],
  ...of,
});

const text = (max: number) =>
  fc.string({ maxLength: max, unit: 'grapheme-ascii' }).filter((drawn) => drawn.trim() === drawn);
const some = (max: number) => text(max).filter((drawn) => drawn !== '');
const code = fc.stringMatching(/^[a-z][a-z0-9-]{0,8}$/);

/** Any procedure of the shape that has no fault: what it says is kept, whatever it is. */
export const anyProcedure: fc.Arbitrary<ProcedureDocument> = fc
  .record({
    name: some(60),
    note: text(80),
    drawn: fc.uniqueArray(
      fc.record({
        title: some(40),
        section: text(20),
        words: text(200),
        cautions: fc.array(fc.record({ hazard: fc.constantFrom(...hazards), words: some(60) }), { maxLength: 3 }),
        pieces: fc.uniqueArray(
          fc.record({
            name: some(30),
            expected: fc.integer({ min: 1, max: 999 }),
            from: text(20),
            why: text(30),
            layer: fc.constant(null),
            oneTime: fc.boolean(),
            matchedSet: fc.option(some(20), { nil: null }),
          }),
          { maxLength: 4, selector: ({ name }) => name.toLocaleLowerCase('en') },
        ),
        putIn: fc.array(fc.record({ name: some(20), count: fc.integer({ min: 1, max: 99 }), where: some(20) }), {
          maxLength: 2,
        }),
        readings: fc.uniqueArray(
          fc.record({ dimension: fc.constant('bore'), round: fc.constantFrom(...readingRounds) }),
          {
            maxLength: 3,
            selector: ({ round }) => round,
          },
        ),
        secondPerson: fc.boolean(),
        photo: text(40),
        choices: fc.uniqueArray(fc.record({ code, words: some(20) }), {
          minLength: 2,
          maxLength: 4,
          selector: (choice) => choice.code,
        }),
        asking: fc.boolean(),
        fact: fc.option(fc.constantFrom(...facts), { nil: null }),
        stands: fc.boolean(),
      }),
      { minLength: 1, maxLength: 6, selector: ({ title }) => title.trim().toLocaleLowerCase('en') },
    ),
  })
  .map(({ drawn, ...head }) => {
    const steps = drawn.map(({ choices, asking, fact, stands, ...step }, index): StepInDocument => {
      const before = drawn[index - 1];
      const first = before?.choices[0];
      const onQuestion = stands && before?.asking && first ? [{ question: `q${index - 1}`, oneOf: [first.code] }] : [];
      const onFact = fact === null ? [] : [{ fact, oneOf: [...(factValues[fact] ?? ['+0.25'])] }];
      const asks = asking ? { code: `q${index}`, words: 'What was found?', choices } : null;
      return { ...step, fastenerSet: null, asks, onlyIf: [...onQuestion, ...onFact] };
    });
    return { shape: 1, code: 'ANY', kind: 'strip', family: 'H355', ...head, steps };
  });
