import { isDeepStrictEqual } from 'node:util';
import type { AsyncCommand } from 'fast-check';
import type { Answer } from '../../support/client.ts';
import type { Act, ActKind, Draw } from './acts.ts';
import { checkAnswer, checkBlindness } from './blindness.ts';
import { believed, type EngineIndex, type Facts } from './facts.ts';
import { checkRackEvents } from './racks-told.ts';
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
  /** What was seen so far, to ask the service about later. */
  readonly seen: Facts[];
  last: { readonly sent: Sent; readonly words: string; readonly engine: EngineIndex } | undefined;
  /** Called with the number of each step that was done, when all that it touched was looked at. */
  readonly onStep: (step: number) => Promise<void>;
  /** Called with the kind of each act and whether it was done, not refused. */
  readonly onAct: (kind: ActKind, done: boolean) => void;
}

/** The engine that nobody touched is looked at now and then only: it is the same statement, for both. */
const LOOK_AT_BOTH = 10;

export const inWords = (act: Act): string => {
  const { who, kind, engine, ...rest } = act;
  return `${who} ${kind} E${engine} ${JSON.stringify(rest)}`;
};
export const told = ({ answer }: Sent): string => `${answer.status} ${answer.body?.detail ?? ''}`;

/** Whether an answer is one that the rules allow: done, refused, or refused and what was counted kept. */
export const allows = ({ refusals, kept }: Expected, { answer }: Sent): boolean =>
  refusals.size === 0
    ? answer.status === 200 || answer.status === 201
    : refusals.has(answer.status) && kept === Array.isArray(answer.body?.differences);

const wanted = ({ refusals, kept }: Expected): string =>
  refusals.size === 0
    ? 'it to be done'
    : `a refusal (${[...refusals].join(' or ')})${kept ? ' that keeps the count' : ''}`;

export const same = (belief: Belief, { engines }: Facts): boolean =>
  engines.every(({ index, facts }) => JSON.stringify(believed(belief, index)) === JSON.stringify(facts));

export function refuseUnlessSame(belief: Belief, seen: Facts, words: string): void {
  for (const { index, facts } of seen.engines) {
    const must = believed(belief, index);
    if (JSON.stringify(must) === JSON.stringify(facts)) continue;
    const wrong = (Object.keys(must) as (keyof typeof must)[]).filter(
      (what) => JSON.stringify(must[what]) !== JSON.stringify(facts[what]),
    );
    const told = wrong.map((what) => `${what}: ${JSON.stringify(facts[what])}, not ${JSON.stringify(must[what])}`);
    throw new Error(`after ${words} the books of E${index} say ${told.join('; ')}`);
  }
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
    model.step += 1;
    const step = String(model.step);
    const sent = await real.world.send(model.belief, act);
    const must = expected(model.belief, act, { step });
    if (!allows(must, sent)) throw new Error(`${this.words}: answered ${told(sent)}; the rules want ${wanted(must)}`);
    await settle({ model, real, words: this.words }, [{ act, sent, must, step }]);
    model.belief = must.belief;
    checkAnswer(model.belief, { act, answer: sent.answer });
    refuseUnlessSame(model.belief, await look(model, real, [act.engine]), this.words);
    if (act.kind === 'offer' && must.refusals.size === 0) {
      await checkRackEvents(real.world, { belief: model.belief, engine: act.engine, who: act.receiver });
    }
    await real.onStep(model.step);
  }
  toString(): string {
    return this.words === '' ? `${this.draw.kind} (nothing to do)` : this.words;
  }
}

/** A course of acts that chance alone would seldom get through. */
export class InTurn implements AsyncCommand<Model, Real> {
  private readonly acts: readonly OneAct[];
  constructor(acts: readonly Draw[]) {
    this.acts = acts.map((draw) => new OneAct(draw));
  }
  check(): boolean {
    return true;
  }
  async run(model: Model, real: Real): Promise<void> {
    for (const act of this.acts) await act.run(model, real);
  }
  toString(): string {
    return this.acts.join(', then ');
  }
}

/** An act that was asked for, and under which name what it makes is known. */
export interface TurnTaken {
  readonly act: Act;
  readonly step: string;
  readonly sent: Sent;
}

export interface Taken extends TurnTaken {
  readonly must: Expected;
}

/** Learns what was made, and keeps the last thing done so that it can be sent again. */
export async function settle(
  { real, words }: { model: Model; real: Real; words: string },
  turns: readonly Taken[],
): Promise<void> {
  for (const { act, sent, must, step } of turns) {
    real.onAct(act.kind, must.refusals.size === 0);
    if (must.refusals.size > 0 && !must.kept) continue;
    await learn(real.world, { act, answer: sent.answer, step, after: must.belief });
    real.last = { sent, words, engine: act.engine };
  }
}

/** What stands now of the engines that were touched; every so often of both. */
export async function look({ step }: Model, real: Real, touched: readonly EngineIndex[]): Promise<Facts> {
  const both = step % LOOK_AT_BOTH === 0;
  const facts = await real.world.facts(both ? [0, 1] : [...new Set(touched)]);
  real.seen.push(facts);
  return facts;
}

/** What an answer says of the act; a refusal names the request it answers as well. */
const ofAct = ({ status, body }: Answer) => ({ status, body: { ...body, instance: undefined } });

/** The line dropped and the request came twice: the same answer, and nothing done twice. */
export class Again implements AsyncCommand<Model, Real> {
  private words = '';
  check(): boolean {
    return true;
  }
  async run(model: Model, real: Real): Promise<void> {
    if (real.last === undefined) return;
    const { sent, words, engine } = real.last;
    this.words = `again: ${words}`;
    model.step += 1;
    const answer = await sent.again();
    if (!isDeepStrictEqual(ofAct(answer), ofAct(sent.answer))) {
      throw new Error(`${this.words}: answered ${answer.status}, at first ${sent.answer.status}`);
    }
    refuseUnlessSame(model.belief, await look(model, real, [engine]), this.words);
    await real.onStep(model.step);
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
    model.step += 1;
    await checkBlindness(real.world, { belief: model.belief, engine: this.draw.engine, who: this.draw.who });
    await real.onStep(model.step);
  }
  toString(): string {
    return `${this.draw.who} looks at E${this.draw.engine}`;
  }
}
