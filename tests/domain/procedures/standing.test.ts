import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Condition } from '#domain/procedures/document.ts';
import { progressOf, type RunState, type StepFacts, standingsOf } from '#domain/procedures/standing.ts';

const step = (id: string, of: Partial<StepFacts> = {}): StepFacts => ({
  id,
  secondPerson: false,
  question: null,
  onlyIf: [],
  ...of,
});
const only = (question: string, ...oneOf: string[]): Condition => ({ question, oneOf });

const state = (steps: readonly StepFacts[], of: Partial<Omit<RunState, 'steps'>> = {}): RunState => ({
  steps,
  marks: [],
  answers: new Map(),
  facts: new Map([['bore', ['plated']]]),
  ...of,
});
const told = (of: RunState) => standingsOf(of).map(({ standing }) => standing);

describe('branches', () => {
  const bore = [
    step('look', { question: 'seen' }),
    step('plated', { onlyIf: [only('seen', 'scored'), { fact: 'bore', oneOf: ['plated'] }] }),
    step('iron', { onlyIf: [only('seen', 'scored'), { fact: 'bore', oneOf: ['not plated'] }] }),
    step('on'),
  ];

  test('what a fact speaks against is left out before anybody answers; the rest waits for the answer', () => {
    expect(told(state(bore))).toEqual(['to do', 'not known yet', 'left out', 'to do']);
  });

  test('the answer opens one branch and closes the other, and says what is known', () => {
    const scored = state(bore, { answers: new Map([['seen', 'scored']]) });
    expect(told(scored)).toEqual(['to do', 'to do', 'left out', 'to do']);
    expect(standingsOf(scored)[2]?.because).toEqual({ condition: bore[2]?.onlyIf[1], known: 'plated' });
    expect(told(state(bore, { answers: new Map([['seen', 'sound']]) }))[1]).toBe('left out');
  });

  test('a question that is itself left out is never asked, so what stands on it is left out too', () => {
    const nested = [
      step('first', { question: 'a' }),
      step('second', { question: 'b', onlyIf: [only('a', 'yes')] }),
      step('third', { onlyIf: [only('b', 'yes')] }),
    ];
    const answers = new Map([
      ['a', 'no'],
      ['b', 'yes'],
    ]);
    expect(told(state(nested, { answers }))).toEqual(['to do', 'left out', 'left out']);
  });

  test('a question asked later, or by nobody, opens nothing', () => {
    const steps = [step('early', { onlyIf: [only('late', 'yes')] }), step('asks', { question: 'late' })];
    expect(told(state(steps, { answers: new Map([['late', 'yes']]) }))[0]).toBe('left out');
  });

  test('a step done before an answer spoke against it is told as left out', () => {
    const marks = [{ stepId: 'plated', mark: 'done' as const }];
    expect(told(state(bore, { marks, answers: new Map([['seen', 'sound']]) }))[1]).toBe('left out');
  });
});

describe('progress', () => {
  const steps = [step('a'), step('stop', { secondPerson: true }), step('b')];

  test('a stop point that waits holds what comes after it', () => {
    const marks = [
      { stepId: 'a', mark: 'done' as const },
      { stepId: 'stop', mark: 'done' as const },
    ];
    expect(progressOf(standingsOf(state(steps, { marks })))).toEqual({
      settled: 1,
      all: 3,
      nextId: null,
      heldAtId: 'stop',
    });
    const signed = [...marks, { stepId: 'stop', mark: 'second person' as const }];
    expect(progressOf(standingsOf(state(steps, { marks: signed })))).toMatchObject({
      settled: 2,
      nextId: 'b',
      heldAtId: null,
    });
  });

  test('an earlier step still to do comes before the stop point that waits', () => {
    const marks = [{ stepId: 'stop', mark: 'done' as const }];
    expect(progressOf(standingsOf(state(steps, { marks })))).toMatchObject({ nextId: 'a', heldAtId: 'stop' });
  });

  test('whatever is answered and marked: no step left out is next, and settled never exceeds what stands', () => {
    const codes = ['x', 'y', 'z'];
    const arbitrary = fc.array(
      fc.record({
        question: fc.option(fc.constantFrom(...codes), { nil: null }),
        on: fc.option(fc.constantFrom(...codes), { nil: null }),
        secondPerson: fc.boolean(),
        mark: fc.constantFrom('none', 'done', 'skipped', 'second person'),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(
        arbitrary,
        fc.dictionary(fc.constantFrom(...codes), fc.constantFrom('yes', 'no')),
        (drawn, answers) => {
          const made = drawn.map(({ question, on, secondPerson }, index) =>
            step(String(index), { question, secondPerson, onlyIf: on === null ? [] : [only(on, 'yes')] }),
          );
          const marks = drawn.flatMap(({ mark }, index) => (mark === 'none' ? [] : [{ stepId: String(index), mark }]));
          const standings = standingsOf(state(made, { marks, answers: new Map(Object.entries(answers)) }));
          const progress = progressOf(standings);
          const next = standings.find(({ stepId }) => stepId === progress.nextId);
          expect(progress.settled).toBeLessThanOrEqual(progress.all);
          if (progress.nextId !== null) expect(next?.standing).toBe('to do');
          if (progress.nextId === null && progress.heldAtId === null)
            expect(standings.some(({ standing }) => standing === 'to do')).toBe(false);
        },
      ),
    );
  });
});
