import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';

export type PrintedDimension = SpecSheetDocument['dimensions'][number];
export type PrintedLimits = PrintedDimension['limits'][number];
export type PrintedPosition = PrintedDimension['positions'][number];
export type PrintedFigure = NonNullable<PrintedDimension['nominal']>;
