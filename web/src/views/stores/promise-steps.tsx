import type { PartPromise } from '#contracts/promising.ts';

const [width, height, ground, left] = [420, 120, 96, 8];

interface StepsProps {
  readonly days: PartPromise['days'];
  readonly label: string;
  /** A day in few letters, below its step. */
  readonly short: (day: string) => string;
}

/**
 * What can be promised, day by day, as a filled step; the stock that is projected as a broken line over it, as far as it
 * lies above. A step is as wide as any other: what counts is the order of the days, each of which is written below.
 */
export function PromiseSteps({ days, label, short }: StepsProps) {
  const shown = days.slice(0, 5);
  const most = Math.max(1, ...shown.flatMap(({ projected, promisable }) => [projected, promisable]));
  const step = (width - 2 * left) / Math.max(1, shown.length);
  const y = (count: number): number => ground - (Math.max(0, count) / most) * (ground - 22);
  const path = (count: (day: PartPromise['days'][number]) => number): string =>
    shown.map((day, at) => `${at === 0 ? 'M' : 'L'}${left + at * step} ${y(count(day))}h${step}`).join('');
  return (
    <svg className="promise-steps" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <path className="fill" d={`${path(({ promisable }) => promisable)}V${ground}H${left}Z`} />
      <path className="projected" d={path(({ projected }) => projected)} />
      <path className="ground" d={`M${left} ${ground}H${width - left}`} />
      {shown.map(({ on, promisable }, at) => (
        <g key={on}>
          <text x={left + (at + 0.5) * step} y={y(promisable) - 5}>
            {promisable}
          </text>
          <text className="day" x={left + (at + 0.5) * step} y={ground + 16}>
            {short(on)}
          </text>
        </g>
      ))}
    </svg>
  );
}
