import type { Condition, Hazard, StepInDocument } from '../../../server/domain/procedures/document.ts';

export type PieceData = StepInDocument['pieces'][number];

export interface StepData extends StepInDocument {
  /** Which tray the shop puts this step's pieces in. */
  readonly tray: TrayKey;
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

/** What differs from one four-stroke family to another. */
export interface FourStrokeWork {
  readonly code: string;
  readonly name: string;
  readonly adjuster: 'shim' | 'screw';
  readonly cooling: 'water' | 'air';
}

type StepOptions = Partial<Omit<StepData, 'title' | 'words' | 'section'>>;

export const step = (title: string, words: string, options: StepOptions = {}): StepData => ({
  section: '',
  title,
  words,
  cautions: [],
  pieces: [],
  putIn: [],
  fastenerSet: null,
  readings: [],
  secondPerson: false,
  photo: '',
  asks: null,
  onlyIf: [],
  tray: 'hardware',
  ...options,
});

export const caution = (hazard: Hazard, words: string): StepData['cautions'][number] => ({ hazard, words });

/** A chapter of the procedure. */
export const section = (name: string, steps: readonly StepData[]): readonly StepData[] =>
  steps.map((each) => ({ ...each, section: name }));

/** Steps that stand only where this holds, beside what each of them asks for itself. */
export const where = (condition: Condition, steps: readonly StepData[]): readonly StepData[] =>
  steps.map((each) => ({ ...each, onlyIf: [condition, ...each.onlyIf] }));

export const asReceived = (...codes: readonly string[]): StepData['readings'] =>
  codes.map((dimension) => ({ dimension, round: 'as received' }));
export const asBuilt = (...codes: readonly string[]): StepData['readings'] =>
  codes.map((dimension) => ({ dimension, round: 'as built' }));

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

/** An air-cooled engine’s procedure says nothing of coolant: there would be nothing to leave out at its bench. */
export const cooledBy = (cooling: FourStrokeWork['cooling'], steps: readonly StepData[]): readonly StepData[] =>
  steps.filter(({ onlyIf }) =>
    onlyIf.every((each) => !('fact' in each) || each.fact !== 'cooling' || each.oneOf.includes(cooling)),
  );

/** What came off, as an assembly names it: it goes back on and opens nothing. */
export const backOn = (pieces: readonly PieceData[]): readonly PieceData[] =>
  pieces.map((each) => ({ ...each, layer: null }));

/** Said once at the head of every procedure. */
export const manualDecides =
  'The maker’s service manual, local codes and licensed or qualified people decide; this list records and counts. Every figure is the manual’s, by way of the spec sheet.';

export const onlookersToo = caution('eyes', 'Eye protection, for whoever looks on too.');

/** Steel in the thread of a head: what goes wrong there costs the head. */
export const plugThread = caution(
  'damage',
  'Its thread is aluminium: turned in a hot head, or started askew, the plug takes the thread along.',
);

/** What a blast of air lifts out of a plug well. */
export const wellBlown = caution('compressed air', 'Grit flies out of the plug well: eye protection.');

/** A circlip that slips out of its pliers. */
export const circlipsFly: StepData['cautions'] = [
  caution('springs under load', 'Circlips fly: a thumb over it, and the rag closes the case.'),
  onlookersToo,
];

export const pulledThrough = caution(
  'pulled through by hand',
  'Plug lead earthed before the engine is turned; fingers clear of chain, sprockets and gears.',
);
