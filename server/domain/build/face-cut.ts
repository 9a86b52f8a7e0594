import { type CubicMillimetres, cubicMillimetres, type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { clearanceVolume, compressionRatio, discVolume, squish } from './cylinder.ts';

/** The face that metal comes off: of the head, or of the cylinder (top or bottom, the piston comes as much nearer). */
export type CutFace = 'head' | 'cylinder';

/** What stands above the piston at top dead centre before the cut; lengths in nm, volumes in mm³. */
export interface AboveThePiston {
  readonly bore: Nanometres;
  readonly stroke: Nanometres;
  readonly chamber: CubicMillimetres;
  /** Where the chamber opens on the head's face. */
  readonly opening: Nanometres;
  readonly gasket: { readonly bore: Nanometres; readonly thickness: Nanometres };
  readonly deck: Nanometres;
  /** In the crown, and standing up from it. */
  readonly dish: CubicMillimetres;
  readonly dome: CubicMillimetres;
}

export interface FaceCut {
  readonly face: CutFace;
  readonly remove: Nanometres;
  /** How much thicker the base gasket will be; below zero: thinner. It raises or lowers the cylinder. */
  readonly baseGasket: Nanometres;
}

export type FaceCutForeseen =
  | {
      readonly ok: true;
      readonly ratio: { readonly before: number; readonly after: number };
      readonly squish: {
        readonly before: Nanometres;
        readonly after: { readonly low: Nanometres; readonly high: Nanometres };
      };
    }
  | { readonly ok: false; readonly reason: 'nothing-left-above-the-piston' };

/**
 * Compression ratio and squish before and after a face is cut and a base gasket of another thickness goes in. Off the
 * head, the chamber loses π/4·opening²·cut; off the cylinder, the deck loses the cut; the base gasket adds to the deck.
 * Squish after a cut of the head is told as a range: a squish band flush with the face keeps its room, one that lies
 * deeper loses the cut. Errors: nothing left above the piston. Source: plain geometry.
 */
export function faceCutForeseen(above: AboveThePiston, { face, remove, baseGasket }: FaceCut): FaceCutForeseen {
  const { bore, gasket, opening, chamber } = above;
  const offTheHead = face === 'head' ? remove : nanometres(0);
  const deckAfter = nanometres(above.deck + baseGasket - (face === 'cylinder' ? remove : 0));
  const clearance = (deck: Nanometres, left: CubicMillimetres) =>
    clearanceVolume({
      chamber: left,
      gasket: discVolume(gasket.bore, gasket.thickness),
      deck: discVolume(bore, deck),
      crown: cubicMillimetres(above.dish - above.dome),
    });
  const swept = discVolume(bore, above.stroke);
  const chamberAfter = cubicMillimetres(chamber - discVolume(opening, offTheHead));
  const before = compressionRatio(swept, clearance(above.deck, chamber));
  const after = compressionRatio(swept, clearance(deckAfter, chamberAfter));
  if (before === undefined || after === undefined || chamberAfter < 0)
    return { ok: false, reason: 'nothing-left-above-the-piston' };
  const high = squish(deckAfter, gasket.thickness);
  return {
    ok: true,
    ratio: { before, after },
    squish: { before: squish(above.deck, gasket.thickness), after: { low: nanometres(high - offTheHead), high } },
  };
}
