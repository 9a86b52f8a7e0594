import { formatQuantity, shortest } from '#domain/units/format-quantity.ts';
import { blowdown, portHeight, portTiming } from '../ports.ts';
import { calculation, figureIn, needed, optional } from './calculation.ts';
import type { CautionCode } from './cautions.ts';
import { rodTooShort } from './crank.ts';
import type { InputFault } from './faults.ts';

const positive = { above: true } as const;
const cautions: readonly CautionCode[] = ['ports-and-rings', 'fuel-and-ignition', 'first-start'];

const crankInputs = { stroke: needed('length', positive), rodLength: needed('length', positive) };

/** When the ports are open, from how far their upper edges lie below the piston's edge at top dead centre. */
export const portTimingOf = calculation({
  inputs: { ...crankInputs, exhaustHeight: needed('length', positive), transferHeight: optional('length', positive) },
  figures: {
    exhaustOpen: figureIn('deg', 1),
    exhaustOpensAt: figureIn('deg', 1),
    transferOpen: figureIn('deg', 1),
    transferOpensAt: figureIn('deg', 1),
    blowdown: figureIn('deg', 1),
  },
  rows: {},
  work: ({ stroke, rodLength: rod, exhaustHeight, transferHeight }) => {
    const short = rodTooShort(stroke, rod);
    if (short !== undefined) return { ok: false, faults: [short] };
    const exhaust = portTiming({ stroke, rod }, exhaustHeight);
    const transfer = transferHeight === undefined ? undefined : portTiming({ stroke, rod }, transferHeight);
    const never = (field: string): InputFault => ({
      field,
      reason: 'never-uncovered',
      bound: `${shortest(formatQuantity(stroke, 'mm', 3), 0)} mm`,
    });
    if (exhaust === undefined) return { ok: false, faults: [never('exhaustHeight')] };
    if (transferHeight !== undefined && transfer === undefined) return { ok: false, faults: [never('transferHeight')] };
    if (transferHeight !== undefined && transferHeight < exhaustHeight) {
      return { ok: false, faults: [{ field: 'transferHeight', reason: 'transfer-before-exhaust' }] };
    }
    return {
      ok: true,
      figures: {
        exhaustOpen: exhaust.open,
        exhaustOpensAt: exhaust.opensAfterTop,
        transferOpen: transfer?.open,
        transferOpensAt: transfer?.opensAfterTop,
        blowdown: transfer === undefined ? undefined : blowdown(exhaust, transfer),
      },
      rows: [],
      cautions,
    };
  },
});

const turn = { above: true, least: 0, most: 359_000_000 } as const;

/** The way back: how far below top dead centre the ports' upper edges must lie to be open for so long. */
export const portHeightsOf = calculation({
  inputs: { ...crankInputs, exhaustOpen: needed('angle', turn), transferOpen: optional('angle', turn) },
  figures: { exhaustHeight: figureIn('mm', 3), transferHeight: figureIn('mm', 3), blowdown: figureIn('deg', 1) },
  rows: {},
  work: ({ stroke, rodLength: rod, exhaustOpen, transferOpen }) => {
    const short = rodTooShort(stroke, rod);
    if (short !== undefined) return { ok: false, faults: [short] };
    if (transferOpen !== undefined && transferOpen > exhaustOpen) {
      return { ok: false, faults: [{ field: 'transferOpen', reason: 'transfer-before-exhaust' }] };
    }
    return {
      ok: true,
      figures: {
        exhaustHeight: portHeight({ stroke, rod }, exhaustOpen),
        transferHeight: transferOpen === undefined ? undefined : portHeight({ stroke, rod }, transferOpen),
        blowdown: transferOpen === undefined ? undefined : (exhaustOpen - transferOpen) / 2,
      },
      rows: [],
      cautions,
    };
  },
});
