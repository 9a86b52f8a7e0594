import { at, scaleBetween } from './coordinates.ts';
import { curve, DegreeAxes, type DegreeFrame } from './degree-frame.tsx';
import { Drawing } from './drawing.tsx';
import type { FormatNumber } from './number-format.ts';

export type MotionPanel = {
  readonly name: string;
  readonly points: readonly (readonly [degrees: number, value: number])[];
  /** What the curve is at the angle that is asked for. */
  readonly now: number | null;
};

export type PistonMotionProps = {
  readonly label: string;
  readonly panels: readonly MotionPanel[];
  /** Degrees after top that are asked for; null: none. */
  readonly asked: number | null;
  readonly degreesName: string;
  readonly format?: FormatNumber;
};

const [WIDTH, LEFT, PANEL, GAP] = [560, 66, 120, 30];

function frameOf(panel: MotionPanel, index: number): DegreeFrame {
  const values = panel.points.map(([, value]) => value);
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)];
  const pad = (most - least || 1) * 0.08;
  const [top, bottom] = [20 + index * (PANEL + GAP), 20 + index * (PANEL + GAP) + PANEL];
  const range = [least < 0 ? least - pad : 0, most + pad] as const;
  return {
    x: scaleBetween(0, 360, [LEFT, WIDTH - 10]),
    y: scaleBetween(range[0], range[1], [bottom, top]),
    left: LEFT,
    right: WIDTH - 10,
    top,
    bottom,
    degrees: [0, 360],
    values: range,
  };
}

/** Position, speed and acceleration of the piston over one turn, one above the other; the asked angle across all. */
export function PistonMotion({ label, panels, asked, degreesName, format }: PistonMotionProps) {
  const height = panels.length * (PANEL + GAP) + 34;
  const turn = asked === null ? null : ((asked % 360) + 360) % 360;
  return (
    <Drawing label={label} viewBox={[0, 0, WIDTH, height]} width={WIDTH} height={height}>
      {panels.map((panel, index) => {
        const frame = frameOf(panel, index);
        return (
          <g key={panel.name} data-panel={panel.name}>
            <DegreeAxes
              frame={frame}
              name={panel.name}
              lettered={index === panels.length - 1}
              degreesName={degreesName}
              {...(format === undefined ? {} : { format })}
            />
            <path d={curve(frame, panel.points)} className="w" />
            {turn === null || panel.now === null ? null : (
              <>
                <path d={`M${at(frame.x(turn))} ${frame.top}V${frame.bottom}`} className="cl" />
                <circle
                  cx={at(frame.x(turn))}
                  cy={at(frame.y(panel.now))}
                  r={4.5}
                  className="f-ink"
                  data-mark="asked"
                />
              </>
            )}
          </g>
        );
      })}
    </Drawing>
  );
}
