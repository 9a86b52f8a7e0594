import type { Layer } from '../spec-sheet.ts';

export interface PieceData {
  readonly name: string;
  readonly expected: number;
  readonly from: string;
  readonly why: string;
  readonly layer: Layer | null;
  readonly oneTime: boolean;
  readonly matchedSet: string | null;
}

export interface StepData {
  readonly title: string;
  readonly words: string;
  readonly caution: string;
  readonly secondPerson: boolean;
  readonly fastenerSet: string | null;
  readonly dimension: string | null;
  /** Which tray the shop puts this step's pieces in. */
  readonly tray: TrayKey;
  readonly pieces: readonly PieceData[];
}

/** Head and cylinder travel alone; the rest in trays. */
export type TrayKey = 'hardware' | 'valve train' | 'head' | 'cylinder' | 'piston' | 'case';

export interface ProcedureData {
  readonly code: string;
  readonly name: string;
  readonly kind: 'strip' | 'assemble' | 'prove';
  readonly note: string;
  readonly steps: readonly StepData[];
}

type StepOptions = Partial<
  Pick<StepData, 'caution' | 'secondPerson' | 'fastenerSet' | 'dimension' | 'tray' | 'pieces'>
>;

export const step = (title: string, words: string, options: StepOptions = {}): StepData => ({
  title,
  words,
  caution: '',
  secondPerson: false,
  fastenerSet: null,
  dimension: null,
  tray: 'hardware',
  pieces: [],
  ...options,
});

type PieceOptions = Partial<Pick<PieceData, 'why' | 'layer' | 'oneTime' | 'matchedSet'>>;

export const piece = (name: string, expected: number, from: string, options: PieceOptions = {}): PieceData => ({
  name,
  expected,
  from,
  why: '',
  layer: null,
  oneTime: false,
  matchedSet: null,
  ...options,
});

/** Said once at the head of every procedure. */
export const manualDecides =
  'The maker’s manual, local rules and qualified people decide; this list records and counts.';
