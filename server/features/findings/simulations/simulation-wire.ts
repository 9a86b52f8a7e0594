import { difference, printOf, quantity } from '#contracts/figures.ts';
import type { FindingSimulation } from '#contracts/finding-simulations.ts';
import { normalCheckOf } from '#domain/metrology/normal-check.ts';
import { simulationWords } from '#domain/metrology/simulation-words.ts';
import { coarsestOf, printedFigures } from '#domain/units/printed-figures.ts';
import { unitCodeOf, unitOf } from '#domain/units/unit-table.ts';
import type { FindingRow } from '../judging/queries.ts';
import type { SimulationRow } from './queries.ts';

/** The figure of the closed form that a drawing is held against; undefined: a feeler's interval, of which there is none. */
function closedValue({ valueType, low, high }: FindingRow, side: SimulationRow['side']): number | undefined {
  switch (valueType) {
    case 'point':
      return low;
    case 'span':
      return side === 'lower' ? low : (high ?? undefined);
    case 'interval':
    case 'felt':
      return undefined;
  }
}

const inUnit = ({ value, unit }: { readonly value: string; readonly unit: string }): string =>
  `${value} ${unitOf(unitCodeOf(unit)).symbol}`.trimEnd();

/** A drawing as the wire tells it, beside the closed form that the verdict rests on. */
export function simulationOnWire(row: SimulationRow, finding: FindingRow): FindingSimulation {
  const print = printOf(finding);
  const interval = (low: number, high: number) => ({ low: quantity(low, print), high: quantity(high, print) });
  const value = closedValue(finding, row.side);
  const symmetric = { low: row.symmetricLow, high: row.symmetricHigh };
  const check =
    value === undefined
      ? undefined
      : normalCheckOf({ value, standard: finding.u, degreesOfFreedom: finding.dof }, { symmetric });
  const { low, high, counts, below, above } = row.histogram;
  return {
    id: row.id,
    findingId: row.findingId,
    trials: row.trials,
    seed: row.seed,
    side: row.side,
    mean: quantity(row.mean, print),
    standardUncertainty: difference(row.u, print),
    symmetric: interval(row.symmetricLow, row.symmetricHigh),
    shortest: interval(row.shortestLow, row.shortestHigh),
    probabilityPast: row.past,
    histogram: { low: quantity(low, print), high: quantity(high, print), counts: [...counts], below, above },
    closedForm:
      value === undefined || check === undefined
        ? null
        : {
            value: quantity(value, print),
            standardUncertainty: difference(finding.u, print),
            interval: interval(check.interval.low, check.interval.high),
            tolerance: difference(check.tolerance, print),
            holds: check.holds,
          },
    words: simulationWords(check, {
      symmetric,
      drawnPast: row.past,
      closedPast: { low: finding.pPastLow, high: finding.pPastHigh },
      printed: printedFigures({ ...print, resolution: coarsestOf(finding.instruments, finding.kind) }).workedOut,
      near: check === undefined ? '' : inUnit(difference(check.tolerance, print)),
    }),
    fromRegister: [...row.fromRegister],
    formulaVersion: row.formulaVersion,
    madeBy: { id: row.madeById, name: row.madeByName },
    madeAt: row.madeAt,
  };
}
