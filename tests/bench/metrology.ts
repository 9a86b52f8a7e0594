import { evaluateDimensions } from '#domain/metrology/evaluate.ts';
import { readDimensionsOf } from '#domain/metrology/resolving.ts';
import { wearOf } from '#domain/metrology/wear.ts';
import type { Figure } from './figures.ts';
import { median } from './figures.ts';
import { wornEngine } from './worn-engine.ts';

const WARM_UPS = 100;
const RUNS = 300;
const ENGINES = 10_000;
const VISITS = [0, 60, 110, 170, 240];
const HISTORY = ['bore', 'taper', 'clearance', 'stem clearance 1', 'lift 1'];

const { sheet, instruments, readings } = wornEngine;

const evaluated = (dimensions: readonly string[], taken: ReturnType<typeof readings>): readonly number[] =>
  evaluateDimensions(dimensions, { sheet, readings: taken, instruments, on: '2026-11-25' }).map((evaluation) => {
    if (!evaluation.ok) throw new Error(JSON.stringify(evaluation.refusal));
    const { value } = evaluation.finding;
    return value.type === 'point' ? value.value : value.type === 'felt' ? 0 : value.low;
  });

/** Milliseconds of this process's own CPU that something takes. */
function cpuOf(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Every finding of one whole worn engine, with its budget. */
function wholeEngine(): readonly Figure[] {
  const taken = readings(120);
  const codes = sheet.map(({ code }) => code);
  const evaluateAll = () => evaluated(codes, taken);
  for (let run = 0; run < WARM_UPS; run += 1) evaluateAll();
  const batch = 10;
  const taking = Array.from({ length: RUNS / batch }, () =>
    cpuOf(() => {
      for (let run = 0; run < batch; run += 1) evaluateAll();
    }),
  );
  return [
    { name: 'metrology.engine', value: median(taking) / batch, unit: 'ms' },
    { name: 'metrology.engine.readings', value: taken.length, unit: '' },
    { name: 'metrology.engine.findings', value: sheet.length, unit: '' },
  ];
}

/** Each engine's visits evaluated anew and its wear fitted, one engine after another: nothing of one is kept for the next. */
function histories(): readonly Figure[] {
  const read = HISTORY.flatMap((code) => readDimensionsOf(code, sheet));
  const start = process.memoryUsage.rss();
  let most = start;
  const begun = performance.now();
  for (let engine = 0; engine < ENGINES; engine += 1) {
    const visits = VISITS.map((hours) => ({
      hours,
      values: evaluated(HISTORY, readings(hours + (engine % 50), read)),
    }));
    for (const index of HISTORY.keys()) {
      const points = visits.map(({ hours, values }) => ({ hours, value: values[index] ?? 0 }));
      wearOf(points, { side: 'upper', value: 88_100_000 });
    }
    if (engine % 100 === 0) most = Math.max(most, process.memoryUsage.rss());
  }
  return [
    { name: 'metrology.histories.rss-growth', value: (most - start) / 2 ** 20, unit: 'MB' },
    { name: 'metrology.histories.engines', value: ENGINES, unit: '' },
    { name: 'metrology.histories.time', value: (performance.now() - begun) / 1000, unit: 's' },
  ];
}

/** Working out and judging, without a database: CPU of one engine, memory over many. */
export const metrology = (): readonly Figure[] => [...wholeEngine(), ...histories()];
