/** What stands where a tray's label does, of pieces that lie beside the engine in no tray. */
export const besideLabel = 'with engine';

/** What is counted as one: "tray 2418·2", or "what lies with the engine". */
export const countedAsOne = (label: string): string =>
  label === besideLabel ? 'what lies with the engine' : `tray ${label}`;

/** Where something is counted, by its label: "tray 2418·2", or "with the engine". */
export const countedPlace = (label: string): string => (label === besideLabel ? 'with the engine' : `tray ${label}`);

/** So many of one piece in one tray, as given or as counted. `count` is whole and ≥ 0. */
export interface CountLine {
  readonly trayId: string;
  readonly pieceId: string;
  readonly piece: string;
  readonly count: number;
}

export type DifferenceKind = 'fewer' | 'more' | 'not-counted' | 'not-given';

/** One piece on which giver and receiver disagree, in the facts a sentence needs. */
export interface CountDifference {
  readonly kind: DifferenceKind;
  readonly trayId: string;
  readonly pieceId: string;
  readonly piece: string;
  readonly given: number;
  readonly counted: number;
}

export type CountComparison =
  | { readonly kind: 'agree' }
  | { readonly kind: 'differ'; readonly differences: readonly CountDifference[] }
  | { readonly kind: 'no-count'; readonly trayId: string; readonly piece: string; readonly count: number };

/**
 * Compares the giver's lines with the receiver's blind count, tray by tray and piece by piece. Several lines of one
 * piece in one tray are added up; a piece on one list only counts as none on the other, so a line of 0 is no
 * difference. `no-count`: some line's count is not a whole number ≥ 0. Order: as given, then what was counted beside.
 */
export function compareCounts(given: readonly CountLine[], counted: readonly CountLine[]): CountComparison {
  const bad = [...given, ...counted].find(({ count }) => !Number.isSafeInteger(count) || count < 0);
  if (bad !== undefined) return { kind: 'no-count', trayId: bad.trayId, piece: bad.piece, count: bad.count };
  const givenByPiece = addedUp(given);
  const countedByPiece = addedUp(counted);
  const differences = [...new Map([...countedByPiece, ...givenByPiece]).keys()]
    .toSorted((a, b) => orderIn(givenByPiece, a) - orderIn(givenByPiece, b))
    .flatMap((key) => difference(givenByPiece.get(key), countedByPiece.get(key)));
  return differences.length === 0 ? { kind: 'agree' } : { kind: 'differ', differences };
}

function addedUp(lines: readonly CountLine[]): ReadonlyMap<string, CountLine> {
  const sums = new Map<string, CountLine>();
  for (const line of lines) {
    const key = JSON.stringify([line.trayId, line.pieceId]);
    sums.set(key, { ...line, count: (sums.get(key)?.count ?? 0) + line.count });
  }
  return sums;
}

function orderIn(lines: ReadonlyMap<string, CountLine>, key: string): number {
  const index = [...lines.keys()].indexOf(key);
  return index === -1 ? lines.size : index;
}

function difference(given: CountLine | undefined, counted: CountLine | undefined): readonly CountDifference[] {
  const line = given ?? counted;
  if (line === undefined || (given?.count ?? 0) === (counted?.count ?? 0)) return [];
  const { trayId, pieceId, piece } = line;
  return [
    {
      kind: differenceKind(given, counted),
      trayId,
      pieceId,
      piece,
      given: given?.count ?? 0,
      counted: counted?.count ?? 0,
    },
  ];
}

function differenceKind(given: CountLine | undefined, counted: CountLine | undefined): DifferenceKind {
  if (counted === undefined) return 'not-counted';
  if (given === undefined) return 'not-given';
  return counted.count < given.count ? 'fewer' : 'more';
}
