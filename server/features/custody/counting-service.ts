import type { CountDifference } from '#contracts/custody.ts';
import { besideLabel, type CountLine, compareCounts, countedPlace } from '#domain/custody/counting.ts';
import { openMiscount } from '#features/obligations/service.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { findStanding } from './queries.ts';
import type { TrayRow } from './service.ts';
import { findLooseIn } from './tray-queries.ts';

export interface CountedTrays {
  readonly engineId: string;
  readonly jobId: string;
  readonly trays: readonly TrayRow[];
  /** Whether the engine itself is moved: then what lies beside it is counted too. */
  readonly itself: boolean;
  readonly counts: readonly { readonly trayId: string; readonly pieceId: string; readonly counted: number }[];
  /** Whether the difference was seen, counted again, and is taken as it is. */
  readonly withDifference: boolean;
  /** Trays that somebody hands over and who counts here has not counted: a refusal tells no number of these. */
  readonly blind?: ReadonlySet<string>;
}

const upperFirst = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A difference as people say it: "Tray 2418·2: 7 of 8 dowels". */
export const differenceInWords = ({ tray, piece, given, counted }: CountDifference): string =>
  `${upperFirst(countedPlace(tray))}: ${counted} × ${piece} counted, ${given} given`;

/**
 * Counts trays against the tally as they change hands without a giver (taken from a bay, left in one, sent out, back).
 * Every loose line has to be counted. A difference is refused at first, so that it is counted again; said again with
 * `withDifference` it opens one obligation a piece.
 */
export async function countTrays(
  act: Act,
  asked: CountedTrays,
): Promise<{ readonly differences: CountDifference[]; readonly obligations: string[] }> {
  const differences = await compareWithTally(act, asked);
  const unseen = differences.find(({ trayId }) => asked.blind?.has(trayId));
  if (unseen !== undefined && !asked.withDifference) {
    throw new ProblemError(
      'conflict',
      `${upperFirst(countedPlace(unseen.tray))}: ${unseen.piece} counted otherwise than given. Count again; if it stays so, send withDifference, and it becomes an obligation.`,
      { differences: [] },
    );
  }
  if (differences.length > 0 && !asked.withDifference) {
    throw new ProblemError(
      'conflict',
      `${differences.map(differenceInWords).join('; ')}. Count again; if it stays so, send withDifference, and each becomes an obligation.`,
      { differences: differences.map(({ pieceId: _, ...difference }) => difference) },
    );
  }
  const obligations: string[] = [];
  const inside = (await findStanding(act.sql, asked.engineId)) !== undefined;
  for (const { pieceId, ...difference } of differences) {
    const words = differenceInWords(difference);
    const { engineId, jobId } = asked;
    const opened = await openMiscount(act, { engineId, jobId, words, inside, pieceId });
    if (opened !== undefined) obligations.push(opened);
  }
  return { differences: differences.map(({ pieceId: _, ...difference }) => difference), obligations };
}

async function compareWithTally(act: Act, { trays, counts, itself, engineId, jobId }: CountedTrays) {
  const lines = await findLooseIn(act.sql, {
    trayIds: trays.map(({ id }) => id),
    besideOf: itself ? { jobId } : undefined,
  });
  const labelOf = new Map([[engineId, besideLabel], ...trays.map(({ id, label }) => [id, label] as const)]);
  const keyOf = (line: { trayId: string; pieceId: string }): string => `${line.trayId} ${line.pieceId}`;
  const byKey = new Map(lines.map((line) => [keyOf(line), line]));
  if (counts.some((count) => !byKey.has(keyOf(count)))) {
    throw new ProblemError('refused', 'A count is of a piece that is not in these trays. Read the trays again.');
  }
  const counted = new Set(counts.map(keyOf));
  if (counted.size < counts.length) {
    throw new ProblemError('refused', 'A piece is counted twice. Send one count a piece and tray.');
  }
  const uncounted = lines.filter((line) => !counted.has(keyOf(line)));
  if (uncounted.length > 0) {
    const names = uncounted
      .map(({ trayId, name }) => `${name} (${countedPlace(labelOf.get(trayId) ?? '')})`)
      .join(', ');
    throw new ProblemError('refused', `Count these as well: ${names}.`, {
      uncounted: uncounted.map(({ trayId, pieceId, name }) => ({ trayId, pieceId, name })),
    });
  }
  const given: CountLine[] = lines.map(({ trayId, pieceId, name, loose }) => ({
    trayId,
    pieceId,
    piece: name,
    count: loose,
  }));
  const found: CountLine[] = counts.map(({ trayId, pieceId, counted: count }) => ({
    trayId,
    pieceId,
    piece: byKey.get(`${trayId} ${pieceId}`)?.name ?? '',
    count,
  }));
  const comparison = compareCounts(given, found);
  if (comparison.kind !== 'differ') return [];
  return comparison.differences.map((difference) => ({
    pieceId: difference.pieceId,
    trayId: difference.trayId,
    tray: labelOf.get(difference.trayId) ?? '',
    piece: difference.piece,
    given: difference.given,
    counted: difference.counted,
  }));
}
