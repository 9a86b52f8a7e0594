import type { FastenerStage } from '#domain/fasteners/fastener-set.ts';
import { guardTorque, type UnitSwap } from '#domain/fasteners/typo-guard.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import type { SheetDocument } from './document.ts';

/** A torque of the sheet that its bolt would hardly stand, by a JSON pointer to the figure. */
export interface TorqueNote {
  readonly pointer: string;
  readonly set: string;
  /** From 1. */
  readonly stage: number;
  readonly kind: 'note' | 'warn';
  readonly shareOfProof: number;
  readonly swap: UnitSwap | null;
}

/**
 * Every torque of the sheet above three quarters of its bolt's proof load (ISO 898-1, K 0.20). Notes, never faults: the
 * manual's figure wins. Angles, unknown threads and classes, and figures that can't be read are left out.
 */
export function torqueNotes(document: Pick<SheetDocument, 'fasteners'>): readonly TorqueNote[] {
  return document.fasteners.flatMap((set, at) =>
    set.stages.flatMap(({ torque }, index): readonly TorqueNote[] => {
      if (torque === null) return [];
      const read = parseQuantity(torque.value, torque.unit, 'torque');
      if (!read.ok) return [];
      const stage: FastenerStage = { ordinal: index + 1, kind: 'torque', torque: read.value };
      const guard = guardTorque(set, stage);
      if (guard.kind !== 'note' && guard.kind !== 'warn') return [];
      const { kind, shareOfProof, swap } = guard;
      const pointer = `/fasteners/${at}/stages/${index}/torque`;
      return [{ pointer, set: set.name, stage: stage.ordinal, kind, shareOfProof, swap }];
    }),
  );
}
