import type { CalculationKind } from '#domain/build/calculations/kinds.ts';
import { calculations } from '#domain/build/calculations/kinds.ts';
import { type Given, readInputs } from '#domain/build/calculations/reading.ts';
import { camFigures } from '#domain/build/cams.ts';
import { peakPistonSpeed, pistonMotion } from '#domain/build/piston-motion.ts';
import { clearanceAt, leastClearance, valveLiftAt } from '#domain/build/valve-lift.ts';
import { microDegrees, nanometres } from '#domain/units/quantity.ts';
import { CylinderFill } from '../../drawings/cylinder-fill.tsx';
import { PistonMotion } from '../../drawings/piston-motion.tsx';
import { ValveClearance } from '../../drawings/valve-clearance.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { CamCircle, PortCircle } from './timing-circles.tsx';

interface DrawingProps {
  readonly given: Given;
  readonly figures: Readonly<Record<string, { readonly value: string; readonly unit: string } | null>>;
}

const degree = 1_000_000;

/** The drawing of a calculation that worked; none where a drawing tells nothing. */
export function DrawingOf({ kind, ...props }: DrawingProps & { readonly kind: CalculationKind }) {
  switch (kind) {
    case 'displacement':
    case 'compression-ratio':
      return <CylinderDrawing {...props} />;
    case 'piston-motion':
      return <MotionDrawing {...props} />;
    case 'valve-to-piston':
      return <ClearanceDrawing {...props} />;
    case 'cam-timing':
    case 'cam-points':
      return <CamsDrawing kind={kind} {...props} />;
    case 'port-timing':
    case 'port-heights':
      return <PortCircle figures={props.figures} given={props.given} />;
    case 'bore-comparison':
    case 'ring-gap':
    case 'mixture':
    case 'coolant':
    case 'oil-level':
    case 'fill-by-weight':
      return null;
  }
}

function CylinderDrawing({ given, figures }: DrawingProps) {
  const words = useWords().looseBench.drawings;
  const format = useFormat();
  const read = readInputs(
    { bore: calculations.displacement.inputs.bore, stroke: calculations.displacement.inputs.stroke },
    {
      bore: given.bore,
      stroke: given.stroke,
    },
  );
  if (!read.ok) return null;
  const [bore, stroke] = [read.values.bore / degree, read.values.stroke / degree];
  const size = (millimetres: number) => `${format.decimal(String(Math.round(millimetres * 1000) / 1000))} mm`;
  const { squish, belowTopAtClosing: closing } = figures;
  return (
    <figure>
      <CylinderFill
        label={words.section(size(bore), size(stroke))}
        bore={bore}
        stroke={stroke}
        squish={squish ? Number(squish.value) : null}
        closing={closing ? Number(closing.value) : null}
        lettered={{
          bore: words.bore(size(bore)),
          stroke: words.stroke(size(stroke)),
          squish: squish ? words.squish(size(Number(squish.value))) : null,
          closing: closing ? words.closing(size(Number(closing.value))) : null,
        }}
      />
      {squish ? <figcaption className="note">{words.notToScale}</figcaption> : null}
    </figure>
  );
}

function MotionDrawing({ given, figures }: DrawingProps) {
  const words = useWords().looseBench.drawings;
  const format = useFormat();
  const read = readInputs(calculations['piston-motion'].inputs, given);
  if (!read.ok) return null;
  const { stroke, rodLength: rod, revolutionsPerMinute: speed, afterTop } = read.values;
  const at = (angle: number) => pistonMotion({ stroke, rod }, speed, microDegrees(angle));
  const turn = Array.from({ length: 181 }, (_, index) => ({ degrees: index * 2, motion: at(index * 2 * degree) }));
  const now = afterTop === undefined ? undefined : at(afterTop);
  const panel = (name: string, pick: 'below' | 'speed' | 'acceleration') => ({
    name,
    points: turn.flatMap(({ degrees, motion }) => (motion === undefined ? [] : [[degrees, motion[pick]] as const])),
    now: now?.[pick] ?? null,
  });
  const peak = peakPistonSpeed({ stroke, rod }, speed);
  return (
    <PistonMotion
      label={words.motion(figures.peakSpeed?.value ?? format.number(peak?.speed ?? 0, 2))}
      panels={[panel(words.below, 'below'), panel(words.speed, 'speed'), panel(words.acceleration, 'acceleration')]}
      asked={afterTop === undefined ? null : afterTop / degree}
      degreesName={words.degrees}
      format={format.number}
    />
  );
}

function ClearanceDrawing({ given, figures }: DrawingProps) {
  const words = useWords().looseBench.drawings;
  const format = useFormat();
  const read = readInputs(calculations['valve-to-piston'].inputs, given);
  if (!read.ok) return null;
  const { stroke, rodLength: rod, clearanceAtTop, valveAngle, rockerRatio, lash, table } = read.values;
  const motion = { table, rockerRatio, lash: lash ?? nanometres(0) };
  const valve = { crank: { stroke, rod }, motion, clearanceAtTop, valveAngle };
  const least = leastClearance(valve);
  if (least === undefined) return null;
  const place = (angle: number) => {
    const at = microDegrees(angle);
    const lift = valveLiftAt(motion, at);
    return { degrees: angle / degree, valve: lift / degree, piston: ((clearanceAt(valve, at) ?? 0) + lift) / degree };
  };
  // The piston is near for a part of the turn only: that part is drawn, whatever the table's length.
  const from = Math.min(-60, Math.floor(least.at / degree / 10) * 10 - 30);
  const to = Math.max(60, Math.ceil(least.at / degree / 10) * 10 + 30);
  const points = Array.from({ length: to - from + 1 }, (_, index) => place((from + index) * degree));
  const [clearance, where] = [format.number(least.clearance / degree, 2), format.number(least.at / degree, 1)];
  return (
    <ValveClearance
      label={words.clearance(figures.leastClearance?.value ?? clearance, where)}
      points={points}
      least={{ ...place(least.at), text: words.least(clearance, where) }}
      names={{ piston: words.piston, valve: words.valve, along: words.along, degrees: words.fromOverlap }}
      format={format.number}
    />
  );
}

function CamsDrawing({ kind, given, figures }: DrawingProps & { readonly kind: 'cam-timing' | 'cam-points' }) {
  const stated = calculations['cam-timing'].inputs;
  const told = kind === 'cam-timing' ? given : (figures as Given);
  const read = readInputs(
    stated,
    Object.fromEntries(Object.keys(stated).map((code) => [code, told[code] ?? undefined])),
  );
  if (!read.ok) return null;
  return <CamCircle timing={read.values} found={camFigures(read.values)} />;
}
