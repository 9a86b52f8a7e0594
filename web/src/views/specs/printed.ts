import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';

export type PrintedDimension = SpecSheetDocument['dimensions'][number];
export type PrintedLimits = PrintedDimension['limits'][number];
export type PrintedPosition = PrintedDimension['positions'][number];
export type PrintedFigure = NonNullable<PrintedDimension['nominal']>;
export type PrintedRing = SpecSheetDocument['rings'][number];
export type PrintedPlain = NonNullable<PrintedRing['angle']>;
export type PrintedFasteners = SpecSheetDocument['fasteners'][number];
export type PrintedValve = SpecSheetDocument['valves'][number];
export type PrintedProof = SpecSheetDocument['proofs'][number];
