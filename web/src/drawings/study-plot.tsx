import { ticksBetween } from './chart-ticks.ts';
import { at, scaleBetween } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { type FormatNumber, plainNumber } from './number-format.ts';

export type PlotReading = {
  readonly part: number;
  readonly person: number;
  readonly trial: number;
  readonly value: number;
};

export type StudyPlotProps = {
  readonly readings: readonly PlotReading[];
  /** Names of the people, by their number in the readings. */
  readonly people: readonly string[];
  readonly label: string;
  readonly partWord: string;
  readonly decimals?: number;
  readonly format?: FormatNumber;
  readonly width?: number;
  readonly height?: number;
};

/** Told apart by form, so that it reads in one colour: disc, ring, square, open square, diamond, open diamond. */
function Mark({ person, x, y }: { readonly person: number; readonly x: number; readonly y: number }) {
  const open = person % 2 === 1;
  const kind = open ? 'w f-paper' : 'w f-ink';
  const form = Math.floor(person / 2) % 3;
  if (form === 0) return <circle cx={at(x)} cy={at(y)} r={3.6} className={kind} />;
  if (form === 1) return <rect x={at(x - 3.4)} y={at(y - 3.4)} width={6.8} height={6.8} className={kind} />;
  return <path d={`M${at(x)} ${at(y - 4.6)}l4.6 4.6-4.6 4.6-4.6-4.6Z`} className={kind} />;
}

const lines = ['w', 'hidw', 'dots', 'cl', 'ph', 'hid'] as const;
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Every reading over its part, each person beside the others, and a line through each person's means. */
export function StudyPlot(props: StudyPlotProps) {
  const { readings, people, label, partWord, decimals = 3, format = plainNumber, width = 720, height = 320 } = props;
  const parts = [...new Set(readings.map(({ part }) => part))].sort((a, b) => a - b);
  const values = readings.map(({ value }) => value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const pad = (most - least || Math.abs(most) * 0.01 || 1) * 0.08;
  const [left, right, top, bottom] = [72, width - 12, 34, height - 40];
  const y = scaleBetween(least - pad, most + pad, [bottom, top]);
  const column = (right - left) / Math.max(parts.length, 1);
  const x = (part: number, person: number) =>
    left +
    column * (parts.indexOf(part) + 0.5) +
    (person - (people.length - 1) / 2) * Math.min(column / (people.length + 1), 18);
  const of = (person: number) => readings.filter((one) => one.person === person);
  const ticks = ticksBetween(least - pad, most + pad, (bottom - top) / 34);
  return (
    <Drawing className="study" label={label} viewBox={[0, 0, width, height]} width={width} height={height}>
      <path d={`M${left} ${top}V${bottom}H${right}`} className="n" />
      {ticks.map((tick) => (
        <g key={tick}>
          <path d={`M${left - 5} ${at(y(tick))}H${left}`} className="n" />
          <text x={left - 9} y={at(y(tick) + 4)} textAnchor="end" className="tn">
            {format(tick, decimals)}
          </text>
        </g>
      ))}
      {parts.map((part, index) => (
        <text key={part} x={at(left + column * (index + 0.5))} y={bottom + 18} textAnchor="middle" className="tn">
          {part}
        </text>
      ))}
      <text x={right} y={bottom + 36} textAnchor="end" className="tx2">
        {partWord}
      </text>
      {people.map((name, person) => {
        const own = of(person);
        const path = parts
          .map((part) => ({ part, values: own.filter((one) => one.part === part).map(({ value }) => value) }))
          .filter(({ values: all }) => all.length > 0)
          .map(({ part, values: all }) => `${at(x(part, person))} ${at(y(mean(all)))}`)
          .join('L');
        const legend = left + 8 + person * Math.min(150, (right - left) / people.length);
        return (
          <g key={name}>
            {path === '' ? null : <path d={`M${path}`} className={lines[person % lines.length]} />}
            {own.map(({ part, trial, value }) => (
              <Mark key={`${part} ${trial}`} person={person} x={x(part, person)} y={y(value)} />
            ))}
            <Mark person={person} x={legend} y={14} />
            <text x={at(legend + 10)} y={18} className="tn">
              {name}
            </text>
          </g>
        );
      })}
    </Drawing>
  );
}
