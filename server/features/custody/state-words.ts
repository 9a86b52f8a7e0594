import type { Layer } from '#domain/tally/pieces.ts';

const depths: Readonly<Record<Layer, string>> = {
  cover: 'Cover off',
  head: 'Head off',
  cylinder: 'Cylinder off',
  case: 'Case open',
};

/** How the engine stands, as a giver says it: "Cylinder off, covered". */
export const stateInWords = (standing: { readonly depth: Layer; readonly covered: boolean } | undefined): string =>
  standing === undefined ? 'Closed' : `${depths[standing.depth]}, ${standing.covered ? 'covered' : 'not covered'}`;
