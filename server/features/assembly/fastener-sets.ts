import { rounded } from '#contracts/figures.ts';
import type { Quantity } from '#contracts/wire.ts';
import type { FastenerSet, FastenerStage } from '#domain/fasteners/fastener-set.ts';
import { usualTolerance } from '#domain/fasteners/fastener-set.ts';
import type { Pull } from '#domain/fasteners/pulls.ts';
import type { TorqueWrench } from '#domain/fasteners/wrench.ts';
import { microDegrees, micronewtonMetres, nanometres } from '#domain/units/quantity.ts';
import { type UnitCode, unitCodeOf } from '#domain/units/unit-table.ts';
import type { PullRow, SetRow, WrenchRow } from './torque-queries.ts';

/** Pulls a maker's wrench stands between calibrations, unless its maker says else (ISO 6789-1, from memory). */
export const PULLS_ALLOWED = 5000;

export function stageOf({ ordinal, torque, angle }: SetRow['stages'][number]): FastenerStage {
  return torque !== null
    ? { ordinal, kind: 'torque', torque: micronewtonMetres(torque) }
    : { ordinal, kind: 'angle', angle: microDegrees(angle ?? 0) };
}

/** A set as the domain knows it. */
export function fastenerSetOf(row: SetRow): FastenerSet {
  return {
    code: row.code,
    name: row.name,
    positions: row.fasteners.map(({ number, x, y }) => ({ number, x: nanometres(x), y: nanometres(y) })),
    orderIsMakers: row.orderIsMakers,
    thread: row.thread,
    propertyClass: row.propertyClass,
    condition: row.condition,
    reuse: row.reuse,
    stages: row.stages.map(stageOf),
    tolerance: usualTolerance,
  };
}

/** The standing pulls of one set. */
export function pullsOf(rows: readonly PullRow[], setCode: string): readonly Pull[] {
  return rows
    .filter((row) => row.setCode === setCode)
    .map(({ fastener, stage, torque, angle }) =>
      torque !== null
        ? { fastener, stage, kind: 'torque', torque: micronewtonMetres(torque) }
        : { fastener, stage, kind: 'angle', angle: microDegrees(angle ?? 0) },
    );
}

/** The unit the sheet prints the set's torques in. */
export const torqueUnitOf = (row: Pick<SetRow, 'unit'>): UnitCode => unitCodeOf(row.unit);

/** A stage's figure as the sheet prints it. */
export const figureOf = (stage: FastenerStage, unit: UnitCode): Quantity =>
  stage.kind === 'torque'
    ? rounded(stage.torque, { unit, decimals: 1 })
    : rounded(stage.angle, { unit: 'deg', decimals: 0 });

export const wrenchOf = (row: WrenchRow): TorqueWrench => ({
  code: row.code,
  largest: micronewtonMetres(row.largest),
  calibratedUntil: row.calibratedUntil,
  pullsSinceCalibration: row.pulls,
  pullsAllowed: PULLS_ALLOWED,
});
