import { formatQuantity, shortest } from '#domain/units/format-quantity.ts';
import { microDegrees, type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { camFigures } from '../cams.ts';
import { meanPistonSpeed } from '../crank.ts';
import { peakPistonSpeed, pistonMotion, standardGravity } from '../piston-motion.ts';
import { clearanceAt, leastClearance, valveLiftAt } from '../valve-lift.ts';
import { calculation, figureIn, needed, optional, plainFigure, table } from './calculation.ts';
import type { InputFault } from './faults.ts';

const positive = { above: true } as const;

/** The refusal of a rod that is no longer than the crank's throw; undefined when the crank can turn. */
export function rodTooShort(stroke: Nanometres, rod: Nanometres): InputFault | undefined {
  if (rod > stroke / 2) return undefined;
  return {
    field: 'rodLength',
    reason: 'rod-too-short',
    bound: `${shortest(formatQuantity(stroke / 2, 'mm', 3), 0)} mm`,
  };
}

/** Position, speed and acceleration of the piston; the mean and the largest of them. */
export const pistonMotionOf = calculation({
  inputs: {
    stroke: needed('length', positive),
    rodLength: needed('length', positive),
    revolutionsPerMinute: needed('number', { ...positive, most: 50_000, unit: 'rpm' }),
    afterTop: optional('angle'),
  },
  figures: {
    meanSpeed: plainFigure('m/s', 2),
    peakSpeed: plainFigure('m/s', 2),
    peakSpeedAt: figureIn('deg', 1),
    peakAcceleration: plainFigure('m/s2', 0),
    peakInGravities: plainFigure('gn', 0),
    accelerationAtBottom: plainFigure('m/s2', 0),
    rodToStroke: plainFigure('1', 3),
    below: figureIn('mm', 3),
    speed: plainFigure('m/s', 2),
    acceleration: plainFigure('m/s2', 0),
  },
  rows: {},
  work: ({ stroke, rodLength: rod, revolutionsPerMinute: speed, afterTop }) => {
    const short = rodTooShort(stroke, rod);
    if (short !== undefined) return { ok: false, faults: [short] };
    const crank = { stroke, rod };
    const [peak, top, bottom] = [
      peakPistonSpeed(crank, speed),
      pistonMotion(crank, speed, microDegrees(0)),
      pistonMotion(crank, speed, microDegrees(180_000_000)),
    ];
    const now = afterTop === undefined ? undefined : pistonMotion(crank, speed, afterTop);
    return {
      ok: true,
      figures: {
        meanSpeed: meanPistonSpeed(stroke, speed),
        peakSpeed: peak?.speed,
        peakSpeedAt: peak?.at,
        peakAcceleration: top?.acceleration,
        peakInGravities: top === undefined ? undefined : top.acceleration / standardGravity,
        accelerationAtBottom: bottom?.acceleration,
        rodToStroke: rod / stroke,
        below: now === undefined ? undefined : Math.round(now.below * 1e6),
        speed: now?.speed,
        acceleration: now?.acceleration,
      },
      rows: [],
      cautions: ['speed-limit'],
    };
  },
});

/** Clearance of valve and piston over the whole turn, and lift at one degree. */
export const valveToPistonOf = calculation({
  inputs: {
    stroke: needed('length', positive),
    rodLength: needed('length', positive),
    clearanceAtTop: needed('length'),
    valveAngle: needed('angle', { least: 0, most: 60_000_000 }),
    rockerRatio: needed('number', { ...positive, usual: '1', most: 5 }),
    lash: optional('length', { most: 5_000_000 }),
    table: table('lift-table'),
    at: optional('angle'),
  },
  figures: {
    leastClearance: figureIn('mm', 3),
    leastAt: figureIn('deg', 1),
    largestLift: figureIn('mm', 3),
    lift: figureIn('mm', 3),
    clearance: figureIn('mm', 3),
  },
  rows: {},
  work: ({ stroke, rodLength: rod, clearanceAtTop, valveAngle, rockerRatio, lash, table: lifts, at }) => {
    const short = rodTooShort(stroke, rod);
    if (short !== undefined) return { ok: false, faults: [short] };
    const motion = { table: lifts, rockerRatio, lash: lash ?? nanometres(0) };
    const valve = { crank: { stroke, rod }, motion, clearanceAtTop, valveAngle };
    const least = leastClearance(valve);
    return {
      ok: true,
      figures: {
        leastClearance: least?.clearance,
        leastAt: least?.at,
        largestLift: Math.max(...lifts.map((point) => valveLiftAt(motion, point.at))),
        lift: at === undefined ? undefined : valveLiftAt(motion, at),
        clearance: at === undefined ? undefined : clearanceAt(valve, at),
      },
      rows: [],
      cautions: [
        ...(least !== undefined && least.clearance <= 0 ? (['valve-meets-piston'] as const) : []),
        'trial-assembly',
        'maker-decides',
      ],
    };
  },
});

const point = { least: -90_000_000, most: 180_000_000 } as const;
const centre = { least: 45_000_000, most: 180_000_000 } as const;
const duration = { least: 0, most: 450_000_000, above: true } as const;

/** Durations, lobe centres, separation and overlap from the points at which the valves open and close. */
export const camTimingOf = calculation({
  inputs: {
    intakeOpensBeforeTop: needed('angle', point),
    intakeClosesAfterBottom: needed('angle', point),
    exhaustOpensBeforeBottom: needed('angle', point),
    exhaustClosesAfterTop: needed('angle', point),
  },
  figures: {
    intakeDuration: figureIn('deg', 1),
    exhaustDuration: figureIn('deg', 1),
    intakeCentre: figureIn('deg', 1),
    exhaustCentre: figureIn('deg', 1),
    separation: figureIn('deg', 1),
    overlap: figureIn('deg', 1),
  },
  rows: {},
  work: (points) => {
    const found = camFigures(points);
    const faults: InputFault[] = [
      ...(found.intakeDuration <= 0 ? [{ field: 'intakeClosesAfterBottom', reason: 'never-open' as const }] : []),
      ...(found.exhaustDuration <= 0 ? [{ field: 'exhaustClosesAfterTop', reason: 'never-open' as const }] : []),
    ];
    if (faults.length > 0) return { ok: false, faults };
    return {
      ok: true,
      figures: {
        intakeDuration: found.intakeDuration,
        exhaustDuration: found.exhaustDuration,
        intakeCentre: found.intakeCentreAfterTop,
        exhaustCentre: found.exhaustCentreBeforeTop,
        separation: found.lobeSeparation,
        overlap: found.overlap,
      },
      rows: [],
      cautions: ['lobes-alike', 'trial-assembly'],
    };
  },
});

/** The way back: opening and closing points from durations and lobe centres. */
export const camPointsOf = calculation({
  inputs: {
    intakeDuration: needed('angle', duration),
    exhaustDuration: needed('angle', duration),
    intakeCentre: needed('angle', centre),
    exhaustCentre: needed('angle', centre),
  },
  figures: {
    intakeOpensBeforeTop: figureIn('deg', 1),
    intakeClosesAfterBottom: figureIn('deg', 1),
    exhaustOpensBeforeBottom: figureIn('deg', 1),
    exhaustClosesAfterTop: figureIn('deg', 1),
    separation: figureIn('deg', 1),
    overlap: figureIn('deg', 1),
  },
  rows: {},
  work: ({ intakeDuration, exhaustDuration, intakeCentre, exhaustCentre }) => {
    const opens = intakeDuration / 2 - intakeCentre;
    const closes = exhaustDuration / 2 - exhaustCentre;
    return {
      ok: true,
      figures: {
        intakeOpensBeforeTop: opens,
        intakeClosesAfterBottom: intakeDuration / 2 + intakeCentre - 180_000_000,
        exhaustOpensBeforeBottom: exhaustDuration / 2 + exhaustCentre - 180_000_000,
        exhaustClosesAfterTop: closes,
        separation: (intakeCentre + exhaustCentre) / 2,
        overlap: opens + closes,
      },
      rows: [],
      cautions: ['lobes-alike', 'trial-assembly'],
    };
  },
});
