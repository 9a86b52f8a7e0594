import type { Highs } from 'highs';
import type { ShimmedHead, StoredShims } from '#domain/lash/heads.ts';
import type { ShimmedValve } from '#domain/lash/shim.ts';

/** One way to serve a valve; lengths in µm. */
export interface Way {
  readonly valve: number;
  /** `stays`, the other valve it comes from, or the lot or part. */
  readonly shim: string;
  readonly kind: 'engine' | 'bin' | 'buy';
  readonly guaranteed: boolean;
  /** Its middle lies in range. */
  readonly centred: boolean;
  /** It is in that valve already. */
  readonly stays: boolean;
  /** Twice the middle of the lash afterwards less twice what is wanted. */
  readonly above: number;
}

/** What a linear program needs to know of heads: the ways to serve each valve, and how often each shim is there. */
export interface LashProgram {
  readonly valves: number;
  readonly ways: readonly Way[];
  readonly stock: ReadonlyMap<string, number>;
}

const um = (nm: number): number => nm / 1_000;

/** Reckoned here once more, from the definitions, so that not only the solver is another. */
function wayOf(valve: ShimmedValve, shim: { readonly value: number; readonly uncertainty: number } | null) {
  const { lash, range, wanted, fitted } = valve;
  if (lash.high === null) return undefined;
  const by = shim === null ? 0 : um(fitted.measured.value) - um(shim.value);
  const spread = shim === null ? 0 : um(fitted.measured.uncertainty) + um(shim.uncertainty);
  const [low, high] = [um(lash.low) + by - spread, um(lash.high) + by + spread];
  const [least, most] = [um(range.low), um(range.high)];
  const guaranteed = least <= low && high <= most;
  // The upper end of blades is open: the lash is below it, unless the lash is one figure.
  const possible = low <= most && (low === high ? high >= least : high > least);
  const centred = least <= (low + high) / 2 && (low + high) / 2 <= most;
  return possible ? { guaranteed, centred, above: low + high - 2 * um(wanted) } : undefined;
}

export function lashProgram(heads: readonly ShimmedHead[], stored: readonly StoredShims[]): LashProgram {
  const places = heads.flatMap((head) => head.valves.map((valve) => ({ head, valve })));
  const stock = new Map<string, number>();
  for (const { head, valve } of places) stock.set(`${head.name} ${valve.code}`, 1);
  for (const { source, count } of stored) stock.set(source.kind === 'bin' ? source.lotId : source.partId, count);
  const ways = places.flatMap(({ head, valve }, index): readonly Way[] => {
    const engine = head.valves
      .filter(({ lash }) => lash.high !== null)
      .map((from) => ({
        shim: `${head.name} ${from.code}`,
        kind: 'engine' as const,
        diameter: from.shimDiameter,
        thickness: from.code === valve.code ? null : from.fitted.measured,
      }));
    const others = stored.map(({ source, thickness, shimDiameter: diameter }) => ({
      shim: source.kind === 'bin' ? source.lotId : source.partId,
      kind: source.kind,
      diameter,
      thickness,
    }));
    return [...engine, ...others].flatMap(({ shim, kind, diameter, thickness }) => {
      const way = diameter === valve.shimDiameter ? wayOf(valve, thickness) : undefined;
      return way === undefined ? [] : [{ valve: index, shim, kind, stays: thickness === null, ...way }];
    });
  });
  return { valves: places.length, ways, stock };
}

/** The aims as costs of each way, the first first; the last but the order of the valves: shims left where they are. */
export const aimsOf = (ways: readonly Way[]): readonly (readonly number[])[] => [
  ways.map(({ guaranteed }) => (guaranteed ? -1 : 0)),
  ways.map(() => -1),
  ways.map(({ centred }) => (centred ? -1 : 0)),
  ways.map(({ kind }) => (kind === 'buy' ? 1 : 0)),
  ways.map(({ kind }) => (kind === 'bin' ? 1 : 0)),
  ways.map(({ above }) => Math.abs(above)),
  ways.map(({ above }) => -above),
  ways.map(({ stays }) => (stays ? -1 : 0)),
];

/**
 * Solves the aims one after another by HiGHS, each with the ones before it held at their best. A face of an assignment's
 * polytope has whole corners, so a linear program is enough.
 * @returns the best of each aim, and the ways taken
 */
export function solveByHighs(
  highs: Highs,
  { valves, ways, stock }: LashProgram,
  aims: readonly (readonly number[])[],
): { readonly best: readonly number[]; readonly taken: readonly Way[] } {
  const shims = [...stock.keys()];
  const rowOf = new Map(shims.map((shim, index) => [shim, valves + index]));
  const rows = valves + shims.length;
  const all = [...ways.keys()];
  return highs.withModel(
    {
      numCols: ways.length,
      numRows: rows,
      colCost: ways.map(() => 0),
      colLower: ways.map(() => 0),
      colUpper: ways.map(() => 1),
      rowLower: Array.from({ length: rows }, () => 0),
      rowUpper: [...Array.from({ length: valves }, () => 1), ...stock.values()],
      matrix: {
        format: 'csc',
        numRows: rows,
        numCols: ways.length,
        starts: [...all.map((index) => 2 * index), 2 * ways.length],
        indices: ways.flatMap(({ valve, shim }) => [valve, rowOf.get(shim) ?? -1]),
        values: ways.flatMap(() => [1, 1]),
      },
    },
    (model) => {
      model.options.set({ output_flag: false, solver: 'simplex', presolve: 'off' });
      const best: number[] = [];
      let taken: readonly Way[] = [];
      for (const costs of aims) {
        model.changeColsCost({ kind: 'range', from: 0, to: ways.length - 1 }, costs);
        model.run();
        const value = Math.round(model.getObjectiveValue());
        best.push(value === 0 ? 0 : value);
        taken = cornerOf(model.getSolution().colValue, ways);
        const used = all.filter((index) => costs[index] !== 0);
        model.addRow(-highs.infinity, value, { indices: used, values: used.map((index) => costs[index] ?? 0) });
      }
      return { best, taken };
    },
  );
}

function cornerOf(values: Float64Array, ways: readonly Way[]): readonly Way[] {
  for (const value of values) {
    if (Math.abs(value - Math.round(value)) > 1e-6) throw new Error(`not a corner: ${value}`);
  }
  return ways.filter((_, index) => Math.round(values[index] ?? 0) === 1);
}
