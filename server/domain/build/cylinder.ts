import { type CubicMillimetres, cubicMillimetres, type Nanometres, nanometres } from '#domain/units/quantity.ts';

/** Bore and stroke of an engine in nm, and how many cylinders it has (whole, ≥ 1). */
export interface CylinderSize {
  readonly bore: Nanometres;
  readonly stroke: Nanometres;
  readonly cylinders: number;
}

/** Displacement in whole mm³: π/4·B²·S·n (geometry). 88.0 × 58.5 mm, one cylinder: 355.80 cm³. */
export function displacement(size: CylinderSize): CubicMillimetres {
  const bore = size.bore / 1e6;
  const stroke = size.stroke / 1e6;
  return cubicMillimetres(Math.round((Math.PI / 4) * bore ** 2 * stroke * size.cylinders));
}

/** Swept volume of one cylinder in whole mm³: π/4·B²·S (geometry). */
export function sweptVolume(bore: Nanometres, stroke: Nanometres): CubicMillimetres {
  return displacement({ bore, stroke, cylinders: 1 });
}

/** What is left above the piston at top dead centre, all in mm³; a crown that stands up counts below zero. */
export interface ClearanceParts {
  /** Chamber in the head, as measured with liquid. */
  readonly chamber: CubicMillimetres;
  readonly gasket: CubicMillimetres;
  /** Between the piston's edge and the top of the cylinder; below zero when the piston stands proud. */
  readonly deck: CubicMillimetres;
  /** Above zero for a dish or valve pockets, below zero for a dome. */
  readonly crown: CubicMillimetres;
}

/** Clearance volume Vc in mm³: chamber + gasket + deck + crown (geometry). */
export function clearanceVolume(parts: ClearanceParts): CubicMillimetres {
  return cubicMillimetres(parts.chamber + parts.gasket + parts.deck + parts.crown);
}

/**
 * Compression ratio (Vs + Vc) / Vc of one cylinder, volumes in mm³; undefined when nothing is left above the piston.
 * Geometry. 355.80 and 27.4 cm³: 13.99.
 */
export function compressionRatio(swept: CubicMillimetres, clearance: CubicMillimetres): number | undefined {
  return clearance > 0 ? (swept + clearance) / clearance : undefined;
}

/** Volume of a disc (gasket, deck) in whole mm³: π/4·D²·h, both in nm; a height below zero gives one below zero. */
export function discVolume(diameter: Nanometres, height: Nanometres): CubicMillimetres {
  return cubicMillimetres(Math.round((Math.PI / 4) * (diameter / 1e6) ** 2 * (height / 1e6)));
}

/** Squish: deck height + gasket thickness pressed together, nm (geometry). Below zero the piston meets the head. */
export function squish(deck: Nanometres, gasket: Nanometres): Nanometres {
  return nanometres(deck + gasket);
}
