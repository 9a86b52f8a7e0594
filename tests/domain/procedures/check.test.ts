import { describe, expect, test } from 'vitest';
import { checkProcedure } from '#domain/procedures/check.ts';
import { compareProcedures } from '#domain/procedures/compare.ts';
import type { ProcedureDocument, StepInDocument } from '#domain/procedures/document.ts';
import { demoFamilies, familyCodes } from '../../../prisma/demo/families/families.ts';

const step = (title: string, of: Partial<StepInDocument> = {}): StepInDocument => ({
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
const piece = (name: string, of: Partial<StepInDocument['pieces'][number]> = {}) => ({
  name,
  expected: 1,
  from: '',
  why: '',
  layer: null,
  oneTime: false,
  matchedSet: null,
  ...of,
});
const written = (...steps: StepInDocument[]): ProcedureDocument => ({
  shape: 1,
  code: 'H355-STRIP',
  name: 'Strip',
  kind: 'strip',
  family: 'H355',
  note: '',
  steps,
});
const sheet = { dimensions: ['bore'], fastenerSets: ['head'] };
const faults = (document: ProcedureDocument) =>
  checkProcedure(document, sheet).map(({ pointer, detail }) => `${pointer} ${detail}`);
const asks = {
  code: 'seen',
  words: 'What is seen?',
  choices: [
    { code: 'good', words: 'Good' },
    { code: 'bad', words: 'Bad' },
  ],
};

describe('what keeps a procedure from being published', () => {
  test('nothing, where all is in order', () => {
    expect(
      faults(written(step('Look', { asks }), step('Mend', { onlyIf: [{ question: 'seen', oneOf: ['bad'] }] }))),
    ).toEqual([]);
  });

  test.each([
    ['no step', written(), '/steps There is no step'],
    ['a step without a title', written(step(' ')), '/steps/0/title Say in a few words'],
    ['two steps of one title', written(step('Look'), step('look')), '/steps/1/title Step 1 is called so already'],
    [
      'a condition on what is asked later',
      written(step('A', { onlyIf: [{ question: 'seen', oneOf: ['bad'] }] }), step('B', { asks })),
      '/steps/0/onlyIf/0/question No earlier step asks "seen"',
    ],
    [
      'a condition on a choice there is not',
      written(step('A', { asks }), step('B', { onlyIf: [{ question: 'seen', oneOf: ['ugly'] }] })),
      '/steps/1/onlyIf/0/oneOf "seen" has no choice "ugly"',
    ],
    [
      'a fact that is never so',
      written(step('A', { onlyIf: [{ fact: 'bore', oneOf: ['golden'] }] })),
      '/steps/0/onlyIf/0/oneOf "bore" is never "golden"',
    ],
    [
      'a question of one choice',
      written(step('A', { asks: { ...asks, choices: asks.choices.slice(0, 1) } })),
      '/steps/0/asks/choices A question needs two',
    ],
    [
      'a piece twice in a step',
      written(step('A', { pieces: [piece('Dowel'), piece('dowel')] })),
      '/steps/0/pieces/1/name "dowel" is counted twice',
    ],
    [
      'a layer after a deeper one',
      written(
        step('A', { pieces: [piece('Cylinder', { layer: 'cylinder' })] }),
        step('B', { pieces: [piece('Head', { layer: 'head' })] }),
      ),
      '/steps/1/pieces/0/layer "Head" opens the engine to the head',
    ],
    [
      'a dimension the sheet has not',
      written(step('A', { readings: [{ dimension: 'bora', round: 'as received' }] })),
      '/steps/0/readings/0/dimension The family’s published sheet has no dimension "bora"',
    ],
    [
      'a fastener set the sheet has not',
      written(step('A', { fastenerSet: 'heads' })),
      '/steps/0/fastenerSet The family’s published sheet has no fastener set',
    ],
    [
      'pieces while it is proved',
      { ...written(step('A', { pieces: [piece('Dowel')] })), kind: 'prove' as const },
      '/steps/0/pieces Nothing comes off',
    ],
  ])('%s', (_, document, told) => {
    expect(faults(document)).toEqual([expect.stringContaining(told)]);
  });
});

describe('the demo’s procedures', () => {
  const all = familyCodes.flatMap((code) => demoFamilies[code].procedures.map((data) => ({ code, data })));

  test.each(all)('$data.code has no fault by its family’s sheet', ({ code, data }) => {
    const current = demoFamilies[code].figures.sheets.at(-1);
    const codes = {
      dimensions: current?.dimensions.map((dimension) => dimension.code) ?? [],
      fastenerSets: current?.fasteners.map((set) => set.code) ?? [],
    };
    expect(checkProcedure({ shape: 1, family: code, ...data }, codes)).toEqual([]);
  });

  test('each hazard of the trade’s list stands in the strip, build and prove of both kinds of engine', () => {
    for (const code of ['H355', 'O125'] as const) {
      const told = new Set(
        demoFamilies[code].procedures.flatMap(({ steps }) =>
          steps.flatMap(({ cautions }) => cautions.map(({ hazard }) => hazard)),
        ),
      );
      for (const hazard of [
        'fuel and solvent vapour',
        'hot coolant',
        'springs under load',
        'lifting',
        'compressed air',
        'cuts',
        'plated-bore dust',
        'used oil and coolant',
        'first start',
        'pulled through by hand',
      ] as const)
        expect([code, hazard, told.has(hazard)]).toEqual([code, hazard, true]);
    }
  });
});

describe('two versions compared', () => {
  const before = written(step('A'), step('B'), step('X'), step('C', { words: 'old' }));

  test('a version is no different from itself', () => {
    expect(compareProcedures(before, before)).toEqual([]);
  });

  test('added, removed, moved and changed steps are told, moved ones as few as can be', () => {
    const after = { ...written(step('C', { words: 'new' }), step('A'), step('B'), step('D')), note: 'why' };
    expect(compareProcedures(before, after)).toEqual([
      { what: 'changed', step: null, title: 'Strip', fields: ['note'] },
      { what: 'moved', step: 1, title: 'C', fields: [] },
      { what: 'changed', step: 1, title: 'C', fields: ['words'] },
      { what: 'added', step: 4, title: 'D', fields: [] },
      { what: 'removed', step: 3, title: 'X', fields: [] },
    ]);
  });

  test('that a step no longer turns the engine is told as much as that it does', () => {
    const turning = written(step('A', { turnsEngine: true }), step('B'), step('X'), step('C', { words: 'old' }));
    const told = [{ what: 'changed', step: 1, title: 'A', fields: ['turnsEngine'] }];
    expect(compareProcedures(before, turning)).toEqual(told);
    expect(compareProcedures(turning, before)).toEqual(told);
  });
});
