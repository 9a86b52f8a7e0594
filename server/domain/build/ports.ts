import { type MicroDegrees, microDegrees, type Nanometres } from '#domain/units/quantity.ts';
import { type Crank, pistonBelowTop } from './crank.ts';
import { crankAngleAt } from './piston-motion.ts';

/** When a port that the piston's edge uncovers is open, µ° of the crank: it opens so far after top dead centre. */
export interface PortOpening {
  readonly opensAfterTop: MicroDegrees;
  readonly open: MicroDegrees;
}

/**
 * Timing of a two-stroke's port from the height of its upper edge: how far it lies below the piston's edge at top dead
 * centre, nm. It opens when the piston is down there and stays open for 360° − 2·θ (slider-crank, geometry; no pin
 * offset). Undefined when the piston never uncovers it or the rod is too short.
 */
export function portTiming(crank: Crank, edgeBelowTop: Nanometres): PortOpening | undefined {
  const opens = crankAngleAt(crank, edgeBelowTop);
  return opens === undefined ? undefined : { opensAfterTop: opens, open: microDegrees(360_000_000 - 2 * opens) };
}

/** The height that gives a wanted duration (µ°, 0 to 360°), nm below top dead centre: portTiming turned round. */
export function portHeight(crank: Crank, open: MicroDegrees): Nanometres | undefined {
  return pistonBelowTop(crank, microDegrees(Math.round((360_000_000 - open) / 2)));
}

/** Blowdown: the turn from exhaust opening to transfer opening, µ°; below zero the transfers open first. */
export function blowdown(exhaust: PortOpening, transfer: PortOpening): MicroDegrees {
  return microDegrees(transfer.opensAfterTop - exhaust.opensAfterTop);
}
