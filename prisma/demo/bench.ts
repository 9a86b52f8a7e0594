import type { Reading } from '../../server/domain/metrology/reading.ts';
import type { Row } from './insert.ts';
import type { DemoInstrument } from './instruments.ts';
import type { DimensionFigures, PlaceFigures } from './spec-sheet.ts';
import { type Act, tell, type Visit } from './visit.ts';
import { there } from './world.ts';

export type Round = 'as received' | 'after work' | 'as built';

export interface KeptReading {
  readonly row: Row;
  readonly reading: Reading;
  readonly instrument: DemoInstrument;
  struck: boolean;
}

export interface Obligation {
  readonly id: string;
  readonly row: Row;
  readonly dimension: string;
  readonly round: Round;
  discharged: boolean;
}

/** Readings and findings of one visit as they pile up. */
export interface Bench {
  readonly visit: Visit;
  readonly readings: KeptReading[];
  readonly obligations: Obligation[];
  readonly newest: Map<string, string>;
  /** Keyed and judged since it was last told of. */
  readonly untold: {
    count: number;
    dimensions: { dimension: string; name: string }[];
    findings: { dimension: string; name: string; verdict: string }[];
  };
  /** The measuring corner's thermometer, °C. */
  readonly celsius: number;
}

export const benchOf = (visit: Visit, celsius = 20.5): Bench => ({
  visit,
  readings: [],
  obligations: [],
  newest: new Map(),
  untold: { count: 0, dimensions: [], findings: [] },
  celsius,
});

export const dimensionOf = (visit: Visit, code: string): DimensionFigures =>
  there(
    visit.revision.sheet.dimensions.find((dimension) => dimension.code === code),
    `the dimension ${code} of ${visit.engine.family.name}`,
  );

export const placeOf = (visit: Visit, dimension: DimensionFigures): PlaceFigures | undefined =>
  visit.revision.sheet.places.find(({ code }) => code === dimension.place);

/** One event for what was keyed in one go, with what came of it. */
export function tellKept(bench: Bench, act: Act): void {
  const { untold, visit } = bench;
  tell(visit, 'readings.kept', act, {
    count: untold.count,
    dimensions: untold.dimensions.splice(0),
    findings: untold.findings.splice(0),
    obligations: [],
  });
  untold.count = 0;
}
