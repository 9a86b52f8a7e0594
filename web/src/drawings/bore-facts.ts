/** Readings at one height of the bore, mm; `null` where none has been taken. */
export type BoreLevel = {
  readonly height: number;
  readonly across: number | null;
  readonly along: number | null;
};

export type BoreAxis = 'across' | 'along';

/** What the finding says. Which levels and axis it rests on is drawn only if the rule names them. */
export type BoreResult = {
  readonly outOfRound: number | null;
  readonly outOfRoundLevel?: number | null;
  readonly taper: number | null;
  readonly taperAxis?: BoreAxis | null;
};

/** Where things stand on the sheet, px. */
export type BoreLayout = {
  readonly centre: number;
  readonly radius: number;
  readonly wall: number;
  readonly top: number;
  readonly depth: number;
  readonly formLeft: number;
  readonly formWidth: number;
  readonly roundsCentre: number;
  readonly heightAt: (mm: number) => number;
};

export const levelName = (index: number): string => String.fromCharCode(65 + (index % 26));

export const isReading = (value: number | null): value is number => value !== null && Number.isFinite(value);

/** The largest round figure (1, 2, 3 or 5 times a power of ten) not above the given one: scale bars, magnifications. */
export function roundDown(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 1;
  const decade = 10 ** Math.floor(Math.log10(value));
  const step = [5, 3, 2, 1].find((size) => size <= value / decade) ?? 1;
  return step * decade;
}
