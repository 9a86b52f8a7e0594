import type { CountDifference } from '#contracts/custody.ts';
import { besideLabel, countedPlace } from '#domain/custody/counting.ts';
import { openMiscount } from '#features/obligations/service.ts';
import type { Act } from '#platform/act.ts';
import { KeptRefusal, ProblemError } from '#platform/problem.ts';
import { insertCountAgain, insertMovingCount, type MovingAct } from './counting-queries.ts';
import { findStanding } from './queries.ts';
import type { TrayRow } from './service.ts';
import { findLooseIn } from './tray-queries.ts';

export interface CountedTrays {
  readonly engineId: string;
  readonly jobId: string;
  /** By which act it changes hands. */
  readonly act: MovingAct;
  readonly trays: readonly TrayRow[];
  /** Whether the engine itself is moved: then what lies beside it is counted too. */
  readonly itself: boolean;
  readonly counts: readonly { readonly trayId: string; readonly pieceId: string; readonly counted: number }[];
  /** Whether the act goes on with the difference. */
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
 * Every loose line has to be counted. A difference opens one obligation a piece with the count that finds it, since the
 * tally's numbers show after it; the act itself is refused at first, so that all is counted again, and done with a count
 * that agrees or with `withDifference`. So nothing that must not stand is written before.
 */
export async function countTrays(
  act: Act,
  asked: CountedTrays,
): Promise<{ readonly differences: CountDifference[]; readonly obligations: string[] }> {
  const lines = await compareWithTally(act, asked);
  const differences = lines.filter(({ given, counted }) => given !== counted).map(({ pieceId: _, ...told }) => told);
  const obligations = await keepCounts(act, asked, lines);
  if (differences.length > 0 && !asked.withDifference) {
    const { engineId, jobId, act: of } = asked;
    await act.event('custody.counted', { engineId, jobId, data: { act: of, differences } });
    throw countAgain(differences, { obligations, blind: asked.blind });
  }
  return { differences, obligations };
}

/** What the refusal says of a count that differs: it is kept, and may be made again. */
function countAgain(
  differences: readonly CountDifference[],
  {
    obligations,
    blind = new Set(),
  }: { readonly obligations: readonly string[]; readonly blind?: ReadonlySet<string> | undefined },
): KeptRefusal {
  const after =
    'The count is kept, and a lead settles the difference. Count again; if it stays so, send withDifference.';
  const unseen = differences.find(({ trayId }) => blind.has(trayId));
  if (unseen === undefined) {
    return new KeptRefusal('conflict', `${differences.map(differenceInWords).join('; ')}. ${after}`, {
      differences,
      obligations,
    });
  }
  const words = `${upperFirst(countedPlace(unseen.tray))}: ${unseen.piece} counted otherwise than given. ${after}`;
  return new KeptRefusal('conflict', words, { differences: [], obligations });
}

type ComparedLine = CountDifference & { readonly pieceId: string };

/** Keeps each difference with its obligation, and what was counted while one of those stands. Says which were opened. */
async function keepCounts(act: Act, asked: CountedTrays, lines: readonly ComparedLine[]): Promise<string[]> {
  const { engineId, jobId } = asked;
  const inside = (await findStanding(act.sql, engineId)) !== undefined;
  const obligations: string[] = [];
  for (const { pieceId, ...line } of lines) {
    const trayId = line.trayId === engineId ? null : line.trayId;
    const count = { jobId, act: asked.act, trayId, pieceId, expected: line.given, counted: line.counted };
    if (line.given === line.counted) {
      await insertCountAgain(act.sql, { ...count, byId: act.actor.id });
      continue;
    }
    const words = differenceInWords(line);
    const { id, opened } = await openMiscount(act, { engineId, jobId, words, inside, pieceId });
    if (opened) obligations.push(id);
    await insertMovingCount(act.sql, { ...count, obligationId: id, byId: act.actor.id });
  }
  return obligations;
}

/** What was counted of each line, and what the tally says. */
async function compareWithTally(
  act: Act,
  { trays, counts, itself, engineId, jobId }: CountedTrays,
): Promise<readonly ComparedLine[]> {
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
  return counts.flatMap(({ trayId, pieceId, counted: count }): ComparedLine[] => {
    const line = byKey.get(keyOf({ trayId, pieceId }));
    if (line === undefined) return [];
    const tray = labelOf.get(trayId) ?? '';
    return [{ pieceId, trayId, tray, piece: line.name, given: line.loose, counted: count }];
  });
}
