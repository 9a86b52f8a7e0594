import { at } from './coordinates.ts';

export interface HatchedBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Rising lines over a box, cut off at its edges; all boxes of a drawing share one grid, so that neighbours join. */
function rising({ x, y, width, height }: HatchedBox, step: number, falling: boolean): string {
  const lines: string[] = [];
  for (let start = Math.ceil((x - height) / step) * step; start < x + width; start += step) {
    const from = Math.max(0, x - start);
    const to = Math.min(height, x + width - start);
    if (to <= from) continue;
    const level = (along: number) => at(falling ? y + along : y + height - along);
    lines.push(`M${at(start + from)} ${level(from)}L${at(start + to)} ${level(to)}`);
  }
  return lines.join('');
}

/**
 * ISO 128 hatching of a box as plain lines at 45°, so many px apart. Printed it stays lines: a pattern would become a
 * picture, and a sheet of strips megabytes.
 */
export function bandHatch(box: HatchedBox, pitch: number, crossed: boolean): string {
  const step = pitch * Math.SQRT2;
  return rising(box, step, false) + (crossed ? rising(box, step, true) : '');
}
