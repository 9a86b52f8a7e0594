/** A procedure as it is written down, imported and exported. docs/procedures.md tells each field. */

export const hazards = [
  'fuel and solvent vapour',
  'hot coolant',
  'springs under load',
  'lifting',
  'compressed air',
  'cuts',
  'plated-bore dust',
  'used oil and coolant',
  'first start',
  'pulled through by hand',
  'hot parts',
  'moving parts',
  'electricity',
  'eyes',
  'damage',
  'other',
] as const;
export type Hazard = (typeof hazards)[number];

export const readingRounds = ['as received', 'after work', 'as built'] as const;

/** What is known of a job without asking anybody, and the values it may have; null: as the spec sheets name them. */
export const factValues = {
  cycle: ['four-stroke', 'two-stroke'],
  cooling: ['water', 'air'],
  bore: ['plated', 'not plated'],
  adjuster: ['shim under bucket', 'shim on bucket', 'screw'],
  'size class': null,
} as const;
export type Fact = keyof typeof factValues;
export const facts = ['cycle', 'cooling', 'bore', 'adjuster', 'size class'] as const satisfies readonly Fact[];

/** A step stands only where this holds: a fact of the job, or an earlier answer, is one of these. */
export type Condition =
  | { readonly fact: Fact; readonly oneOf: readonly string[] }
  | { readonly question: string; readonly oneOf: readonly string[] };

export interface PieceInDocument {
  readonly name: string;
  readonly expected: number;
  readonly from: string;
  readonly why: string;
  readonly layer: 'cover' | 'head' | 'cylinder' | 'case' | null;
  readonly oneTime: boolean;
  readonly matchedSet: string | null;
}

export interface StepInDocument {
  readonly section: string;
  readonly title: string;
  readonly words: string;
  readonly cautions: readonly { readonly hazard: Hazard; readonly words: string }[];
  readonly pieces: readonly PieceInDocument[];
  readonly putIn: readonly { readonly name: string; readonly count: number; readonly where: string }[];
  readonly fastenerSet: string | null;
  readonly readings: readonly { readonly dimension: string; readonly round: (typeof readingRounds)[number] }[];
  /** Another person than the one who did it has to look and mark it too: the work stops here until then. */
  readonly secondPerson: boolean;
  /** The engine is turned over in it: it waits while something may be inside. Left out: it is not. */
  readonly turnsEngine?: true | undefined;
  /** What a photograph taken here has to show; empty: none is asked for. */
  readonly photo: string;
  readonly asks: {
    readonly code: string;
    readonly words: string;
    readonly choices: readonly { readonly code: string; readonly words: string }[];
  } | null;
  /** All of them have to hold. */
  readonly onlyIf: readonly Condition[];
}

export interface ProcedureDocument {
  readonly shape: 1;
  readonly code: string;
  readonly name: string;
  readonly kind: 'strip' | 'assemble' | 'prove';
  /** Code of the engine family. */
  readonly family: string;
  readonly note: string;
  readonly steps: readonly StepInDocument[];
}
