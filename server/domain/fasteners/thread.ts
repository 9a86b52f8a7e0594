import { type Nanometres, nanometres } from '#domain/units/quantity.ts';

/** An ISO metric thread: nominal diameter and pitch, nm. */
export interface MetricThread {
  readonly diameter: Nanometres;
  readonly pitch: Nanometres;
}

/** Coarse pitches by nominal diameter, both in micrometres (ISO 261, from memory; M5 to M16 seen in public tables). */
const coarsePitch: ReadonlyMap<number, number> = new Map([
  [3_000, 500],
  [4_000, 700],
  [5_000, 800],
  [6_000, 1_000],
  [7_000, 1_000],
  [8_000, 1_250],
  [10_000, 1_500],
  [12_000, 1_750],
  [14_000, 2_000],
  [16_000, 2_000],
  [18_000, 2_500],
  [20_000, 2_500],
  [22_000, 2_500],
  [24_000, 3_000],
]);

/**
 * Reads a thread as it is written on a sheet: "M8x1.25", "M8×1", "M 8 x 1.25", or "M8" with its coarse pitch.
 * Undefined when it is no metric thread, has no coarse pitch in the table, or its pitch is not below half its diameter.
 */
export function parseThread(text: string): MetricThread | undefined {
  const match = /^M\s*(\d{1,2}(?:\.\d{1,3})?)(?:\s*[x×]\s*(\d(?:\.\d{1,3})?))?$/iu.exec(text.trim());
  if (match === null) return undefined;
  const diameter = micrometres(match[1] ?? '');
  const pitch = match[2] === undefined ? coarsePitch.get(diameter) : micrometres(match[2]);
  if (pitch === undefined || pitch === 0 || 2 * pitch >= diameter) return undefined;
  return { diameter: nanometres(diameter * 1_000), pitch: nanometres(pitch * 1_000) };
}

function micrometres(text: string): number {
  const [whole = '', fraction = ''] = text.split('.');
  return Number(whole) * 1_000 + Number(fraction.padEnd(3, '0'));
}

/**
 * Tensile stress area of an ISO metric thread in mm²: π/4·((d₂ + d₃)/2)² with the pitch diameter d₂ = d − 3√3/8·P and
 * the minor diameter d₃ = d₁ − H/6 (ISO 898-1; about π/4·(d − 0.9382 P)²).
 */
export function stressArea(thread: MetricThread): number {
  const diameter = thread.diameter / 1e6;
  const height = (Math.sqrt(3) / 2) * (thread.pitch / 1e6);
  const pitchDiameter = diameter - (3 / 4) * height;
  const minorDiameter = diameter - (5 / 4) * height - height / 6;
  return (Math.PI / 4) * ((pitchDiameter + minorDiameter) / 2) ** 2;
}
