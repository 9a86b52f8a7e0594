/** What lies in a rack, as it is seen from above. */
export type RackPiece = 'bucket' | 'shim' | 'valve' | 'cap' | 'rocker' | 'screw' | 'plate' | 'plain';

export type RackWell = {
  readonly code: string;
  readonly name: string;
  readonly side: '' | 'exhaust' | 'intake';
  /** Whether a piece lies in it; null: not told before it is counted. */
  readonly filled: boolean | null;
  /** The place whose piece lies or belongs here now; its own code when it is where it belongs. */
  readonly from: string;
  readonly fromName: string;
  /** Its piece lies in its order, but not here: where it does; empty: it lies here, or nowhere. */
  readonly elsewhere: string;
};

const kinds: readonly (readonly [RegExp, RackPiece])[] = [
  [/\b(bucket|tappet)/i, 'bucket'],
  [/\bshim/i, 'shim'],
  [/\bvalve\b/i, 'valve'],
  [/\bcap\b|\bcaps\b/i, 'cap'],
  [/\brocker/i, 'rocker'],
  [/\bscrew/i, 'screw'],
  [/\b(plate|disc|ring)/i, 'plate'],
];

/** By the name of its line; what has no form of its own is drawn as a plain block. */
export const rackPieceOf = (name: string): RackPiece => kinds.find(([words]) => words.test(name))?.[1] ?? 'plain';

export const isWrong = ({ code, from }: RackWell): boolean => code !== from;
