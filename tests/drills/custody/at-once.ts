import type { AsyncCommand } from 'fast-check';
import type { Draw } from './acts.ts';
import { checkAnswer } from './blindness.ts';
import {
  allows,
  inWords,
  look,
  type Model,
  type Real,
  refuseUnlessSame,
  same,
  settle,
  type Taken,
  type TurnTaken,
  told,
} from './commands.ts';
import { resolve } from './resolve.ts';
import { expected } from './rules.ts';
import type { Belief } from './state.ts';

/** Two people at once: answered as if one had come after the other, in one order or the other. */
export class AtOnce implements AsyncCommand<Model, Real> {
  private words = '';
  private readonly one: Draw;
  private readonly other: Draw;
  constructor(one: Draw, other: Draw) {
    this.one = one;
    this.other = other;
  }
  check(): boolean {
    return true;
  }
  async run(model: Model, real: Real): Promise<void> {
    const first = resolve(model.belief, this.one);
    const second = resolve(model.belief, this.other);
    if (first === undefined || second === undefined) return;
    this.words = `[${inWords(first)} AT ONCE WITH ${inWords(second)}]`;
    model.step += 2;
    const [a, b] = [`${model.step}a`, `${model.step}b`];
    const before = model.belief;
    const [sentA, sentB] = await Promise.all([real.world.send(before, first), real.world.send(before, second)]);
    const orders = [
      inOrder(before, { act: first, step: a, sent: sentA }, { act: second, step: b, sent: sentB }),
      inOrder(before, { act: second, step: b, sent: sentB }, { act: first, step: a, sent: sentA }),
    ].filter((turns) => turns.every(({ must, sent }) => allows(must, sent)));
    const answers = `answered ${told(sentA)} and ${told(sentB)}`;
    if (orders.length === 0) throw new Error(`${this.words}: ${answers}; in neither order the rules allow that`);
    const blind = ordersThatTellNothing(orders, this.words);
    for (const turns of blind) {
      await settle({ model, real, words: this.words }, turns);
      const after = turns.at(-1)?.must.belief ?? before;
      const facts = await look(model, real, [first.engine, second.engine]);
      if (turns !== blind.at(-1) && !same(after, facts)) continue;
      refuseUnlessSame(after, facts, `${this.words} (${answers})`);
      model.belief = after;
      await real.onStep(model.step - 1);
      await real.onStep(model.step);
      return;
    }
  }
  toString(): string {
    return this.words === '' ? 'two at once (nothing to do)' : this.words;
  }
}

/**
 * The orders in which no answer told what was to be counted blind. The first was answered before the second was done:
 * what the second hides was no secret yet, so that an answer may be innocent in one order only.
 */
function ordersThatTellNothing<Order extends readonly Taken[]>(
  orders: readonly Order[],
  words: string,
): readonly Order[] {
  let telling: unknown;
  const innocent = orders.filter((turns) => {
    try {
      for (const { act, sent, must } of turns) checkAnswer(must.belief, { act, answer: sent.answer });
      return true;
    } catch (error) {
      telling = error;
      return false;
    }
  });
  if (innocent.length === 0) throw new Error(`${words}: ${telling instanceof Error ? telling.message : telling}`);
  return innocent;
}

function inOrder(before: Belief, one: TurnTaken, other: TurnTaken) {
  const first = expected(before, one.act, { step: one.step });
  return [
    { ...one, must: first },
    { ...other, must: expected(first.belief, other.act, { step: other.step, seen: before }) },
  ];
}
