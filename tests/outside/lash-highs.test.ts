// Source: HiGHS 1.15 (highs.dev; Huangfu and Hall, Parallelizing the dual revised simplex method, Math. Prog. Comp. 10,
// 2018), an independent solver of linear programs, from the npm package highs. It solves generated heads aim by aim.
import fc from 'fast-check';

import { describe, expect, it } from 'vitest';
import { chooseShim, type ShimCandidate } from '#domain/lash/choose-shim.ts';
import { chooseForHeads, type HeadsChoice } from '#domain/lash/heads.ts';
import { type HeadsCase, headsCase } from '../support/generated-heads.ts';
import { aimsOf, lashProgram, solveByHighs, type Way } from '../support/lash-program.ts';
import { loadHighs } from '../support/load-highs.ts';

const highs = await loadHighs();
/** For a busy machine; alone they take some eight seconds together. */
const timeout = 60_000;

/** The ways that an answer takes, as the linear program names them. */
function waysTaken({ valves }: HeadsChoice, ways: readonly Way[]): readonly Way[] {
  return valves.flatMap((choice, index) => {
    if (!choice.ok) return [];
    const { source } = choice.chosen;
    const shim = {
      stays: `${choice.head} ${choice.valve}`,
      engine: `${choice.head} ${source.kind === 'engine' ? source.valve : ''}`,
      bin: source.kind === 'bin' ? source.lotId : '',
      buy: source.kind === 'buy' ? source.partId : '',
    }[source.kind];
    const way = ways.find((one) => one.valve === index && one.shim === shim);
    if (way === undefined) throw new Error(`${choice.valve} cannot have ${shim}`);
    return [way];
  });
}

const sumOf = (taken: readonly Way[], ways: readonly Way[], costs: readonly number[]): number =>
  taken.reduce((sum, way) => sum + (costs[ways.indexOf(way)] ?? 0), 0) || 0;

/** For each valve in turn the costs that make HiGHS take for it the way that `chooseShim` would take first. */
function ordersOf({ heads, stored }: HeadsCase, ways: readonly Way[]): readonly (readonly number[])[] {
  const places = heads.flatMap((head) => head.valves.map((valve) => ({ head, valve })));
  return places.map(({ head, valve }, index) => {
    const engine = head.valves.map((from): readonly [string, ShimCandidate] => [
      `${head.name} ${from.code}`,
      {
        source: from.code === valve.code ? { kind: 'stays' } : { kind: 'engine', valve: from.code },
        thickness: from.fitted.measured,
        shimDiameter: from.shimDiameter,
        count: 1,
      },
    ]);
    const others = stored.map((candidate): readonly [string, ShimCandidate] => {
      const { source } = candidate;
      return [source.kind === 'bin' ? source.lotId : source.partId, candidate];
    });
    let left = [...engine, ...others].filter(([name]) => ways.some((way) => way.valve === index && way.shim === name));
    const rank = new Map<string, number>();
    while (left.length > 0) {
      const choice = chooseShim(
        valve,
        left.map(([, candidate]) => candidate),
        valve.makersSizes,
      );
      if (!choice.ok) break;
      for (const [name, candidate] of left) if (candidate === choice.chosen) rank.set(name, rank.size);
      left = left.filter(([, candidate]) => candidate !== choice.chosen);
    }
    // Less than none is any, so that a valve rather has its last choice than nothing.
    return ways.map((way) => (way.valve === index ? (rank.get(way.shim) ?? 0) - 1_000 : 0));
  });
}

const cases = (numRuns: number, seed: number, most: Parameters<typeof headsCase>[0]) =>
  fc.sample(headsCase(most), { numRuns, seed });

describe('whole heads against HiGHS', () => {
  it.each([
    { count: 1_000, seed: 4, most: { heads: 1, valves: 5, stored: 12 } },
    { count: 600, seed: 16, most: { heads: 1, valves: 16, stored: 40 } },
    { count: 400, seed: 28, most: { heads: 3, valves: 5, stored: 20 } },
  ])(
    '$count heads of up to $most.valves valves: every aim as good as it can be',
    { timeout },
    ({ count, seed, most }) => {
      for (const { heads, stored } of cases(count, seed, most)) {
        const program = lashProgram(heads, stored);
        const taken = waysTaken(chooseForHeads(heads, stored), program.ways);
        const aims = aimsOf(program.ways);
        const ours = aims.map((costs) => sumOf(taken, program.ways, costs));
        expect(ours).toEqual(program.ways.length === 0 ? aims.map(() => 0) : solveByHighs(highs, program, aims).best);
      }
    },
  );

  it.each([
    { count: 500, seed: 5, most: { heads: 1, valves: 5, stored: 8 } },
    { count: 500, seed: 6, most: { heads: 2, valves: 4, stored: 6, alike: true } },
  ])(
    '$count heads, seed $seed: the very same shims, where the order of the valves decides',
    ({ count, seed, most }) => {
      for (const one of cases(count, seed, most)) {
        const program = lashProgram(one.heads, one.stored);
        const taken = waysTaken(chooseForHeads(one.heads, one.stored), program.ways);
        if (program.ways.length === 0) continue;
        const aims = [...aimsOf(program.ways), ...ordersOf(one, program.ways)];
        expect(taken).toEqual(solveByHighs(highs, program, aims).taken);
      }
    },
  );
});
