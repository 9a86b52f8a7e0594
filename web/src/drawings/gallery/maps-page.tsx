import { useState } from 'react';
import { BoltMap } from '../bolt-map.tsx';
import { BoreMap, type BoreMapProps } from '../bore-map.tsx';
import { LashBoard } from '../lash-board.tsx';
import type { LashValve } from '../lash-facts.ts';
import { RingClock } from '../ring-clock.tsx';
import { WearChart, type WearChartProps } from '../wear-chart.tsx';

const bore: BoreMapProps = {
  nominal: 88,
  limit: 88.05,
  levels: [
    { height: 10, across: 88.048, along: 88.039 },
    { height: 40, across: 88.041, along: 88.034 },
    { height: 65, across: 88.031, along: 88.029 },
  ],
  result: { outOfRound: 0.009, outOfRoundLevel: 0, taper: 0.017, taperAxis: 'across' },
};
const many: BoreMapProps = {
  nominal: 98,
  limit: 98.06,
  levels: [8, 22, 36, 50, 64, 78].map((height, i) => ({
    height,
    across: 98.041 - i * 0.004,
    along: i === 4 ? null : 98.03 - i * 0.002,
  })),
  result: { outOfRound: 0.011, taper: 0.02 },
};

const gaps = [
  { mark: '1', name: 'top ring', angle: 20 },
  { mark: '2', name: 'second ring', angle: 200 },
  { mark: '3', name: 'upper rail', angle: 320 },
  { mark: 'S', name: 'spacer', angle: 140 },
  { mark: '4', name: 'lower rail', angle: 98, allowed: false },
];
const zones = [
  { from: 75, to: 105 },
  { from: 255, to: 285 },
  { from: 165, to: 190 },
  { from: 345, to: 10 },
];

const bolts = [
  ['7', -58, 39],
  ['1', -17, 47],
  ['3', 24, 47],
  ['5', 58, 39],
  ['8', 58, -39],
  ['2', 24, -47],
  ['4', -17, -47],
  ['6', -58, -39],
] as const;

function Bolts() {
  const [done, setDone] = useState<readonly string[]>(['1', '2', '3']);
  const next = ['1', '2', '3', '4', '5', '6', '7', '8'].find((number) => !done.includes(number)) ?? null;
  return (
    <BoltMap
      backdrop="four-valve-head"
      stage={2}
      stages={3}
      next={next}
      width={440}
      onBolt={(id) => setDone([...done, id])}
      bolts={bolts.map(([number, x, y]) => ({ id: number, number, x, y, stagesDone: done.includes(number) ? 2 : 1 }))}
    />
  );
}

const shim = (fitted: number, chosen: number | null, after: readonly [number, number] | null) =>
  ({ kind: 'shim', fitted, chosen, after }) as const;
const valves: readonly LashValve[] = [
  {
    id: 'xl',
    name: 'EX left',
    side: 'exhaust',
    lash: [0.13, 0.14],
    out: true,
    adjustment: { ...shim(2.4, 2.35, [0.18, 0.19]), source: { kind: 'moves', text: 'from EX right', valve: 'xr' } },
  },
  {
    id: 'xr',
    name: 'EX right',
    side: 'exhaust',
    lash: [0.24, 0.25],
    out: true,
    adjustment: { ...shim(2.35, 2.4, [0.19, 0.2]), source: { kind: 'moves', text: 'from EX left', valve: 'xl' } },
  },
  {
    id: 'il',
    name: 'IN left',
    side: 'intake',
    lash: [0.08, 0.09],
    out: true,
    adjustment: { ...shim(2.35, 2.3, [0.13, 0.14]), source: { kind: 'bin', text: 'new, bin S-14 (2 left)' } },
  },
  {
    id: 'ir',
    name: 'IN right',
    side: 'intake',
    lash: [0.12, 0.13],
    out: false,
    adjustment: { ...shim(2.3, 2.3, [0.12, 0.13]), source: { kind: 'stays', text: 'stays' } },
  },
];
const screws: readonly LashValve[] = [
  {
    id: 'x',
    name: 'EX',
    side: 'exhaust',
    lash: [0.2, 0.21],
    out: true,
    adjustment: { kind: 'screw', after: [0.14, 0.16], text: 'set, then lock the nut' },
  },
  {
    id: 'i',
    name: 'IN',
    side: 'intake',
    lash: null,
    out: false,
    adjustment: { kind: 'screw', after: null, text: 'not measured' },
  },
];
const crossing: readonly LashValve[] = [
  ...valves.slice(0, 1).map(
    (v): LashValve => ({
      ...v,
      adjustment: { ...shim(2.4, 2.3, [0.2, 0.22]), source: { kind: 'moves', text: 'from IN right', valve: 'ir' } },
    }),
  ),
  ...valves.slice(1, 2).map(
    (v): LashValve => ({
      ...v,
      adjustment: { ...shim(2.4, null, null), source: { kind: 'none', text: 'none reaches it' } },
    }),
  ),
  ...valves.slice(2, 3).map(
    (v): LashValve => ({
      ...v,
      adjustment: { ...shim(2.4, 2.25, [0.11, 0.12]), source: { kind: 'buy', text: 'buy 2.25' } },
    }),
  ),
  ...valves.slice(3),
];

const readings = [
  [0, 88.006],
  [58, 88.014],
  [121, 88.021],
  [186, 88.03],
  [246, 88.036],
] as const;
const along = (hours: number) => 88.0063 + 0.0001226 * hours;
const wear: WearChartProps = {
  limit: 88.05,
  points: readings.map(([hours, value]) => ({ hours, value, guard: 0.0031 })),
  line: [
    { hours: 0, value: along(0) },
    { hours: 246, value: along(246) },
  ],
  band: Array.from({ length: 40 }, (_, i) => {
    const hours = i * 12;
    const half = 0.0027 + Math.abs(hours - 122) * 0.000008;
    return { hours, low: along(hours) - half, high: along(hours) + half };
  }),
  reach: { earliest: 326, latest: 391 },
};

export function MapsPage() {
  return (
    <>
      <section>
        <h2>Bore map</h2>
        <div className="row top-aligned">
          <BoreMap {...bore} />
          <BoreMap {...bore} narrow />
          <BoreMap {...many} />
          <BoreMap
            nominal={54}
            levels={[
              { height: 12, across: null, along: null },
              { height: 30, across: null, along: null },
            ]}
            result={{ outOfRound: null, taper: null }}
            narrow
          />
        </div>
      </section>
      <section>
        <h2>Ring clock, bolt map</h2>
        <div className="row top-aligned">
          <RingClock gaps={gaps} forbidden={zones} size={400} />
          <RingClock
            gaps={[
              { mark: '1', name: 'top ring', angle: 30 },
              { mark: '2', name: 'second', angle: 33 },
              { mark: '3', name: 'third', angle: null },
            ]}
            size={300}
          />
          <Bolts />
          <BoltMap
            stage={1}
            stages={1}
            width={260}
            next="b"
            bolts={[
              { id: 'a', number: '1', x: 0, y: 0, stagesDone: 1 },
              { id: 'b', number: '2', x: 40, y: 0, stagesDone: 0 },
              { id: 'c', number: '3', x: 40, y: 40, stagesDone: 0 },
              { id: 'd', number: '4', x: 0, y: 40, stagesDone: 0 },
            ]}
          />
        </div>
      </section>
      <section>
        <h2>Lash board</h2>
        <div className="row top-aligned">
          <LashBoard valves={valves} />
          <LashBoard valves={valves} stacked />
          <LashBoard valves={screws} />
          <LashBoard valves={crossing} />
        </div>
      </section>
      <section>
        <h2>Wear chart</h2>
        <div className="row top-aligned">
          <WearChart {...wear} />
          <WearChart {...wear} width={340} height={260} />
          <WearChart limit={88.05} points={wear.points.slice(0, 2)} />
        </div>
      </section>
    </>
  );
}
