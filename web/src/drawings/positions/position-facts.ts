import type { BoreAxis, BoreLevel } from '../bore-facts.ts';
import type { DrawingWords } from '../words.ts';

/** What is measured and where, and which place is asked for now (`null`: none, all done). */
export type PositionFacts =
  | {
      readonly kind: 'bore';
      readonly levels: readonly BoreLevel[];
      readonly active: { readonly level: number; readonly axis: BoreAxis } | null;
      readonly barrelDepth?: number;
    }
  | {
      readonly kind: 'piston';
      readonly heightAboveSkirt: number;
      readonly value: number | null;
      readonly active: boolean;
    }
  | { readonly kind: 'flatness'; readonly lines: readonly (number | null)[]; readonly active: number | null }
  | { readonly kind: 'ring-gap'; readonly depth: number; readonly value: string | null; readonly active: boolean }
  | {
      readonly kind: 'pin';
      readonly places: readonly { readonly name: string; readonly value: number | null }[];
      readonly active: number | null;
    };

export type PositionLettering = {
  readonly letter: (value: number | null) => string;
  readonly length: (mm: number) => string;
  readonly words: DrawingWords;
};

/** What stands in a box: asked for now, read already, or not yet. */
export function boxText(value: number | null, active: boolean, { letter, words }: PositionLettering): string {
  return active ? words.position.now : letter(value);
}
