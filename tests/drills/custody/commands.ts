import type { AsyncCommand } from 'fast-check';
import type { Act, Draw } from './acts.ts';
import { checkBlindness } from './blindness.ts';
import { believed, type Facts } from './facts.ts';
import { resolve } from './resolve.ts';
import { type Expected, expected } from './rules.ts';
import type { Belief } from './state.ts';
import { learn, type Sent, type World } from './world.ts';

export interface Model {
  belief: Belief;
  step: number;
}
export interface Real {
  readonly world: World;
  readonly seen: Facts[];
  last: { readonly sent: Sent; readonly words: string } | undefined;
  readonly onStep: () => void;
}

const inWords = (act: Act): string => {
  const { who, kind, engine, ...rest } = act;
  return `${who} ${kind} E${engine} ${JSON.stringify(rest)}`;
};
const told = ({ answer }: Sent): string => `${answer.status} ${answer.body?.detail ?? ''}`;

/** Whether an answer is one that the rules allow. */
const allows = ({ refusals }: Expected, { answer }: Sent): boolean =>
  refusals.size === 0 ? answer.status === 200 || answer.status === 201 : refusals.has(answer.status);

const wanted = ({ refusals }: Expected): string =>
  refusals.size === 0 ? 'it to be done' : `a refusal (${[...refusals].join(' or ')})`;

const same = (belief: Belief, facts: Facts): boolean =>
  JSON.stringify(believed(belief)) === JSON.stringify(facts.engines);

function refuseUnlessSame(belief: Belief, facts: Facts, words: string): void {
  if (same(belief, facts)) return;
  throw new Error(
    `after ${words} the books say ${JSON.stringify(facts.engines, null, 1)} and should say ${JSON.stringify(believed(belief), null, 1)}`,
  );
}

/** One act of one person: answered as the rules say, and nothing else changed. */
export class OneAct implements AsyncCommand<Model, Real> {
  private words = '';
  private readonly draw: Draw;
  constructor(draw: Draw) {
    this.draw = draw;
  }
  check(): boolean {
    return true;
  }
  async run(model: Model, real: Real): Promise<void> {
    const act = resolve(model.belief, this.draw);
    if (act === undefined) return;
    this.words = inWords(act);
    real.onStep();
    model.step += 1;
    const step = String(model.step);
    const sent = await real.world.send(model.belief, act);
    const must = expected(model.belief, act, { step });
    if (!allows(must, sent)) throw new Error(`${this.words}: answered ${told(sent)}; the rules want ${wanted(must)}`);
    await settle({ model, real, words: this.words }, [{ act, sent, must, step }]);
    model.belief = must.belief;
    refuseUnlessSame(model.belief, await look(real), this.words);
  }
  toString(): string {
    return this.words === '' ? `${this.draw.kind} (nothing to do)` : this.words;
  }
}

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
    real.onStep();
    real.onStep();
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
    for (const turns of orders) {
      await settle({ model, real, words: this.words }, turns);
      const after = turns.at(-1)?.must.belief ?? before;
      const facts = await look(real);
      if (turns !== orders.at(-1) && !same(after, facts)) continue;
      refuseUnlessSame(after, facts, `${this.words} (${answers})`);
      model.belief = after;
      return;
    }
  }
  toString(): string {
    return this.words === '' ? 'two at once (nothing to do)' : this.words;
  }
}

interface TurnTaken {
  readonly act: Act;
  readonly step: string;
  readonly sent: Sent;
}

function inOrder(before: Belief, one: TurnTaken, other: TurnTaken) {
  const first = expected(before, one.act, { step: one.step });
  return [
    { ...one, must: first },
    { ...other, must: expected(first.belief, other.act, { step: other.step, seen: before }) },
  ];
}

/** Learns what was made, and keeps the last thing done so that it can be sent again. */
async function settle(
  { real, words }: { model: Model; real: Real; words: string },
  turns: readonly (TurnTaken & { readonly must: Expected })[],
): Promise<void> {
  for (const { act, sent, must, step } of turns) {
    if (must.refusals.size > 0) continue;
    await learn(real.world, { act, answer: sent.answer, step, after: must.belief });
    real.last = { sent, words };
  }
}

async function look(real: Real): Promise<Facts> {
  const facts = await real.world.facts();
  real.seen.push(facts);
  return facts;
}

/** The line dropped and the request came twice: the same answer, and nothing done twice. */
export class Again implements AsyncCommand<Model, Real> {
  private words = '';
  check(): boolean {
    return true;
  }
  async run(model: Model, real: Real): Promise<void> {
    if (real.last === undefined) return;
    const { sent, words } = real.last;
    this.words = `again: ${words}`;
    real.onStep();
    const answer = await sent.again();
    if (answer.status !== sent.answer.status || JSON.stringify(answer.body) !== JSON.stringify(sent.answer.body)) {
      throw new Error(`${this.words}: answered ${answer.status}, at first ${sent.answer.status}`);
    }
    refuseUnlessSame(model.belief, await look(real), this.words);
  }
  toString(): string {
    return this.words;
  }
}

/** Somebody looks: no number of the giver's before the count. */
export class Look implements AsyncCommand<Model, Real> {
  private readonly draw: Draw;
  constructor(draw: Draw) {
    this.draw = draw;
  }
  check(): boolean {
    return true;
  }
  async run(model: Model, real: Real): Promise<void> {
    real.onStep();
    await checkBlindness(real.world, { belief: model.belief, engine: this.draw.engine, who: this.draw.who });
  }
  toString(): string {
    return `${this.draw.who} looks at E${this.draw.engine}`;
  }
}
