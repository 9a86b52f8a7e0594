import type { ShimAnswer, ValveStanding } from '#contracts/assembly.ts';
import type { HeadShimsAnswer } from '#contracts/head-shims.ts';
import type { LashInterval, LashValve, ShimSource } from '../../drawings/lash-facts.ts';
import type { Words } from '../../words/words.tsx';

/** What was keyed and answered for a valve at this bench, before anything is taken. */
export interface Asked {
  readonly fitted: string;
  readonly answer: ShimAnswer | HeadShimsAnswer['valves'][number] | undefined;
}

/** A thickness as it is typed, in mm. */
export const isThickness = (text: string): boolean => /^\d{1,2}([.,]\d{1,4})?$/.test(text.trim());

/** The shim that is in a valve, as it is typed here, else as it was measured in this job. */
export const fittedText = (valve: ValveStanding, asked: Asked | undefined): string =>
  asked?.fitted ?? valve.fitted?.thickness.value ?? '';

interface Ends {
  readonly low: string;
  readonly high: string | null;
}

/** An interval without an upper end is drawn by its lower one: the thickest blade went in. */
const intervalOf = (ends: Ends | null): LashInterval | null =>
  ends === null ? null : [Number(ends.low), Number(ends.high ?? ends.low)];

function sourceOf(answer: NonNullable<Asked['answer']>, valves: readonly ValveStanding[]): ShimSource {
  const { chosen, why } = answer;
  if (chosen === null) return { kind: 'none', text: why ?? '' };
  switch (chosen.from) {
    case 'stays':
      return { kind: 'stays', text: chosen.words };
    case 'engine': {
      const from = 'movesFrom' in answer ? answer.movesFrom : null;
      const giver = valves.find(({ code }) => code === from);
      return giver === undefined
        ? { kind: 'stays', text: chosen.words }
        : { kind: 'moves', text: chosen.words, valve: giver.code };
    }
    case 'bin':
      return { kind: 'bin', text: chosen.words };
    case 'buy':
      return { kind: 'buy', text: chosen.words };
  }
}

/** A valve as the board draws it: what is proposed now, else what was chosen, else what is known. */
export function boardValve(
  valve: ValveStanding,
  asked: Asked | undefined,
  of: { readonly valves: readonly ValveStanding[]; readonly words: Words },
): LashValve {
  const { board } = of.words.assemble.lash;
  const { answer } = asked ?? { answer: undefined };
  const common = {
    id: valve.code,
    name: valve.name,
    side: valve.side,
    lash: intervalOf(valve.lash),
    out: valve.verified === 'out',
  };
  if (valve.adjuster === 'screw') {
    const text = valve.verified === 'in-range' ? board.inRange : valve.lash === null ? board.notMeasured : board.screw;
    return { ...common, adjustment: { kind: 'screw', after: null, text } };
  }
  const typed = fittedText(valve, asked);
  const fitted = isThickness(typed) ? Number(typed.replace(',', '.')) : null;
  if (answer !== undefined) {
    return {
      ...common,
      adjustment: {
        kind: 'shim',
        fitted,
        chosen: answer.chosen === null ? null : Number(answer.chosen.thickness.value),
        after: answer.chosen === null ? null : intervalOf(answer.chosen.after),
        source: sourceOf(answer, of.valves),
      },
    };
  }
  const { choice } = valve;
  const text =
    valve.verified === 'in-range'
      ? board.inRange
      : choice === null
        ? valve.lash === null
          ? board.notMeasured
          : ''
        : choice.words;
  return {
    ...common,
    adjustment: {
      kind: 'shim',
      fitted,
      chosen: choice === null ? null : Number(choice.thickness.value),
      after: choice === null ? null : intervalOf(choice.after),
      source: { kind: 'stays', text },
    },
  };
}
