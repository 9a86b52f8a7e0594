import { type MicronewtonMetres, micronewtonMetres, type Nanometres } from '#domain/units/quantity.ts';
import { type MetricThread, stressArea } from './thread.ts';

/** Property classes of steel bolts, screws and studs whose proof stress is known here. */
export type PropertyClass = '4.8' | '5.8' | '8.8' | '9.8' | '10.9' | '12.9';

const classes: readonly PropertyClass[] = ['4.8', '5.8', '8.8', '9.8', '10.9', '12.9'];

/** The property class that is written on a sheet, undefined when there is none or it isn't known here. */
export function parsePropertyClass(text: string): PropertyClass | undefined {
  return classes.find((known) => known === text.trim());
}

/**
 * Stress under proving load in MPa (ISO 898-1; 8.8, 10.9 and 12.9 seen in public tables, the others from memory).
 * For 8.8 it is 600 above 16 mm.
 */
export function proofStress(propertyClass: PropertyClass, diameter: Nanometres): number {
  switch (propertyClass) {
    case '4.8':
      return 310;
    case '5.8':
      return 380;
    case '8.8':
      return diameter > 16_000_000 ? 600 : 580;
    case '9.8':
      return 650;
    case '10.9':
      return 830;
    case '12.9':
      return 970;
  }
}

/** Proof load in newtons: stress area × proof stress, not rounded as the tables do. */
export function proofLoad(thread: MetricThread, propertyClass: PropertyClass): number {
  return stressArea(thread) * proofStress(propertyClass, thread.diameter);
}

/**
 * The torque that would load a bolt to a share of its proof load: T = K·d·F, in whole µN·m. `nutFactor` K is 0.20 dry and
 * 0.15 oiled (handbook value, from memory). For comparison only: a sheet's figure always wins.
 */
export function torqueAtShare(
  bolt: { readonly thread: MetricThread; readonly propertyClass: PropertyClass },
  shareOfProof: number,
  nutFactor: number,
): MicronewtonMetres {
  const newtons = proofLoad(bolt.thread, bolt.propertyClass) * shareOfProof;
  return micronewtonMetres(Math.round(nutFactor * (bolt.thread.diameter / 1e9) * newtons * 1e6));
}
