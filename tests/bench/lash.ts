import { chooseForHeads, type HeadsChoice, type ShimmedHead, type StoredShims } from '#domain/lash/heads.ts';
import { type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { lashProgram, solveByHighs, type Way } from '../support/lash-program.ts';
import { loadHighs } from '../support/load-highs.ts';
import { type Figure, medians } from './figures.ts';

const VALVES = 16;
const LOTS = 400;
const RUNS = 60;

const um = (value: number): Nanometres => nanometres(value * 1_000);

/** The same numbers in every run, 0 to `below` − 1 (a linear congruential generator; constants from memory). */
function drawing(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

interface Case {
  readonly head: ShimmedHead;
  readonly stored: readonly StoredShims[];
}

/** Sixteen valves, most of them out, and 400 lots of measured shims and sizes to buy from `least` to `most` µm. */
function caseOf(least: number, most: number): Case {
  const draw = drawing(11);
  const shimDiameter = um(9_480);
  const valves = Array.from({ length: VALVES }, (_, index) => {
    const low = 40 + 10 * draw(18);
    return {
      code: `V${index + 1}`,
      fitted: { measured: { value: um(2_300 + draw(200)), uncertainty: um(4) }, printed: null },
      lash: { low: um(low), high: um(low + 10) },
      wanted: um(index % 2 === 0 ? 130 : 180),
      range: index % 2 === 0 ? { low: um(100), high: um(160) } : { low: um(150), high: um(210) },
      shimDiameter,
      makersSizes: { low: um(1_200), high: um(3_500) },
    };
  });
  const stored = Array.from({ length: LOTS }, (_, index): StoredShims => {
    const id = `lot ${String(index).padStart(3, '0')}`;
    return {
      source: index % 5 === 0 ? { kind: 'buy', partId: id } : { kind: 'bin', lotId: id, receivedAt: '' },
      thickness: { value: um(least + draw(most - least)), uncertainty: um(index % 5 === 0 ? 5 : 4) },
      shimDiameter,
      count: index % 5 === 0 ? VALVES : 1 + draw(2),
    };
  });
  return { head: { name: 'head', valves }, stored };
}

/** The aims as two objectives, so that HiGHS has to solve no more often than it must: the counts, then the distances. */
function objectives(ways: readonly Way[]): readonly (readonly number[])[] {
  const base = VALVES + 1;
  const counts = ({ guaranteed, kind }: Way) =>
    Number(kind === 'bin') + base * Number(kind === 'buy') - base ** 2 - base ** 3 * Number(guaranteed);
  return [ways.map(counts), ways.map(({ above, stays }) => base * (10_000 * Math.abs(above) - above) - Number(stays))];
}

function summed(choice: HeadsChoice, ways: readonly Way[], costs: readonly number[]): number {
  return choice.valves.reduce((sum, one, index) => {
    if (!one.ok) return sum;
    const { source } = one.chosen;
    const shim =
      source.kind === 'bin'
        ? source.lotId
        : source.kind === 'buy'
          ? source.partId
          : `${one.head} ${source.kind === 'engine' ? source.valve : one.valve}`;
    return sum + (costs[ways.findIndex((way) => way.valve === index && way.shim === shim)] ?? Number.NaN);
  }, 0);
}

/** Sixteen valves against 400 lots, ours from the measured figures to the answer, HiGHS from its matrix to its answer. */
export async function lash(): Promise<readonly Figure[]> {
  const highs = await loadHighs();
  const figures: Figure[] = [];
  for (const [name, { head, stored }] of [
    ['', caseOf(1_900, 2_900)],
    ['.all-near', caseOf(2_330, 2_430)],
  ] as const) {
    const program = lashProgram([head], stored);
    const aims = objectives(program.ways);
    const ours = aims.map((costs) => summed(chooseForHeads([head], stored), program.ways, costs));
    const { best } = solveByHighs(highs, program, aims);
    if (JSON.stringify(ours) !== JSON.stringify(best)) throw new Error(`${ours} is not ${best}`);
    const taken = await medians(RUNS, {
      ours: async () => chooseForHeads([head], stored),
      highs: async () => solveByHighs(highs, program, aims),
    });
    figures.push(
      { name: `lash.16x400${name}`, value: taken.ours, unit: 'ms' },
      { name: `lash.highs${name}.ratio`, value: taken.ours / taken.highs, unit: '' },
      { name: `lash.highs${name}.time`, value: taken.highs, unit: 'ms' },
      { name: `lash.16x400${name}.ways`, value: program.ways.length, unit: '' },
    );
  }
  return figures;
}
