import { type CalculationKind, findCalculation } from '#domain/build/calculations/kinds.ts';

/** What the loose bench does beside arithmetic: questions that choose. */
export const paneKinds = ['fastener-set', 'wrench', 'ring-clock', 'whole-head', 'bearing-shells'] as const;
export type PaneKind = (typeof paneKinds)[number];
export type BenchKind = CalculationKind | PaneKind;

export const findPane = (text: string | undefined): PaneKind | undefined => paneKinds.find((kind) => kind === text);

/** What an address names; the first calculation where it names nothing. */
export function benchKindIn(param: string | undefined): BenchKind | undefined {
  return param === undefined ? 'displacement' : (findPane(param) ?? findCalculation(param));
}
