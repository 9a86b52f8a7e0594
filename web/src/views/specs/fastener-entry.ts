import { parseQuantity } from '#domain/units/parse-quantity.ts';
import type { Bolt } from '../../drawings/bolt-facts.ts';
import { plainly } from './plain-figure.ts';
import type { PrintedFasteners } from './printed.ts';

export type FastenerPosition = PrintedFasteners['positions'][number];
export type FastenerStage = PrintedFasteners['stages'][number];

/** What every group of fields is given: the set as it stands, and how to change it. */
export interface FastenersProps {
  readonly entry: PrintedFasteners;
  readonly change: (change: Partial<PrintedFasteners>) => void;
}

export const newTorque = (unit: string): FastenerStage => ({ torque: { value: '', unit }, angle: null });
export const newAngle: FastenerStage = { torque: null, angle: { value: '', unit: 'deg' } };

/** A set as a form begins with it. */
export const newFasteners: PrintedFasteners = {
  code: '',
  name: '',
  thread: '',
  propertyClass: '',
  condition: 'dry',
  tool: '',
  reuse: 'reuse',
  orderIsMakers: true,
  source: '',
  page: '',
  positions: [],
  stages: [newTorque('N.m')],
};

/** A set as it is sent. */
export const tidiedFasteners = (of: PrintedFasteners): PrintedFasteners => ({
  ...of,
  code: of.code.trim(),
  name: of.name.trim(),
  thread: of.thread.trim(),
  propertyClass: of.propertyClass.trim(),
  positions: of.positions.map(({ x, y }) => ({ x: plainly(x), y: plainly(y) })),
  stages: of.stages.map(({ torque, angle }) => ({
    torque: torque === null ? null : plainly(torque),
    angle: angle === null ? null : plainly(angle),
  })),
});

const millimetres = ({ value, unit }: FastenerPosition['x']): number | null => {
  const read = parseQuantity(value, unit, 'length');
  return read.ok ? read.value / 1e6 : null;
};

/** The positions that can be drawn as they stand, each with its number in the order; and the numbers that can't. */
export function drawnPositions(positions: readonly FastenerPosition[]): {
  readonly bolts: readonly Bolt[];
  readonly undrawn: readonly number[];
} {
  const read = positions.map((position, index) => ({
    number: index + 1,
    x: millimetres(position.x),
    y: millimetres(position.y),
  }));
  return {
    bolts: read.flatMap(({ number, x, y }) =>
      x === null || y === null ? [] : [{ id: String(number), number: String(number), x, y, stagesDone: 0 }],
    ),
    undrawn: read.filter(({ x, y }) => x === null || y === null).map(({ number }) => number),
  };
}
