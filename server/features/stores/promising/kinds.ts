import { type Coming, type Cover, coverLacks, type Lack, lastOf, type Share } from '#domain/stock/cover.ts';
import { type LotRule, type RuleWish, wishesUnder } from '#domain/stock/lot-rule.ts';
import { sameGrade } from '#domain/stock/lots.ts';

/** Pieces of one part that no rule tells apart: of one thickness (null: no shim) and one grade (empty: none). */
export interface Kind {
  readonly partId: string;
  readonly thickness: number | null;
  readonly grade: string;
}

const sign = '\t';

/** A kind as the domain knows it: by a text of its own. */
export const kindKey = ({ partId, thickness, grade }: Kind): string =>
  [partId, thickness ?? '', grade.trim().toLowerCase()].join(sign);

export const partOfKind = (key: string): string => key.split(sign)[0] ?? key;

/** Pieces of a part that are bought for a job, which count for that job whatever its rule: they were bought for its line. */
const boughtFor = (partId: string, jobId: string): string => [partId, 'for', jobId].join(sign);
/** What would be bought of a part now. */
export const orderable = (partId: string): string => [partId, 'to order'].join(sign);

/** What a line wants beyond what it has, and by which rule; its parts in the order in which they are used up. */
interface RuledWish {
  readonly servedBy: readonly string[];
  readonly rule: LotRule;
  readonly gotNm: readonly number[];
}

/** Kinds by part, those that came in first before others. */
export function kindsByPart(kinds: readonly Kind[]): ReadonlyMap<string, readonly Kind[]> {
  const byPart = new Map<string, Map<string, Kind>>();
  for (const kind of kinds) {
    const own = byPart.get(kind.partId) ?? new Map<string, Kind>();
    if (!own.has(kindKey(kind))) own.set(kindKey(kind), kind);
    byPart.set(kind.partId, own);
  }
  return new Map([...byPart].map(([partId, own]) => [partId, [...own.values()]]));
}

const suits = (kind: Kind, { thickness, grade = null }: RuleWish): boolean =>
  (thickness === null || thickness === kind.thickness) && (grade === null || sameGrade(kind.grade, grade));

/** What `pieces` of a line are served by, wish by wish of its rule: the keys of the kinds that suit, in the order of use. */
function ruledWishes(
  line: RuledWish,
  pieces: number,
  kinds: ReadonlyMap<string, readonly Kind[]>,
): readonly { readonly count: number; readonly keys: readonly string[] }[] {
  return wishesUnder(line.rule, { open: pieces, got: line.gotNm }).map((wish) => ({
    count: wish.count,
    keys: line.servedBy.flatMap((partId) =>
      (kinds.get(partId) ?? []).filter((kind) => suits(kind, wish)).map((kind) => kindKey(kind)),
    ),
  }));
}

/** What comes of a part, as the kind that it will be as far as one knows before it is there. */
interface ComingKind extends Coming, Omit<Kind, 'partId'> {}

interface RuledLack extends RuledWish {
  readonly id: string;
  readonly jobId: string;
  readonly short: number;
}

/**
 * Lacks by wish of their rules, and what comes by kind. What was bought for a job that wants the part by a rule is a kind
 * of its own, since its thickness or grade is known when it is there.
 */
export function lacksByKind(
  lacks: readonly RuledLack[],
  coming: readonly ComingKind[],
  kinds: ReadonlyMap<string, readonly Kind[]>,
): { readonly lacks: readonly Lack[]; readonly coming: readonly Coming[] } {
  const byRule = new Set(
    lacks
      .filter(({ rule }) => isStrict(rule))
      .flatMap(({ servedBy, jobId }) => servedBy.map((partId) => boughtFor(partId, jobId))),
  );
  return {
    lacks: lacks.flatMap(({ id, jobId, short, ...line }) =>
      ruledWishes(line, short, kinds).map(({ count, keys }) => ({
        id,
        jobId,
        short: count,
        servedBy: [
          ...keys,
          ...line.servedBy.map((partId) => boughtFor(partId, jobId)),
          ...line.servedBy.slice(-1).map(orderable),
        ],
      })),
    ),
    coming: coming.map(({ thickness, grade, ...line }) => ({
      ...line,
      partId:
        line.jobId !== null && byRule.has(boughtFor(line.partId, line.jobId))
          ? boughtFor(line.partId, line.jobId)
          : kindKey({ partId: line.partId, thickness, grade }),
    })),
  };
}

const isStrict = ({ rule }: LotRule): boolean => rule !== 'oldest';

/** Which lines on order fill which shortages, each by its rule (coverLacks). */
export function coverByRule(lacks: readonly RuledLack[], coming: readonly ComingKind[]): readonly Cover[] {
  const split = lacksByKind(lacks, coming, kindsByPart(coming));
  const covers = new Map<string, Cover[]>();
  for (const cover of coverLacks(split.lacks, split.coming))
    covers.set(cover.lackId, [...(covers.get(cover.lackId) ?? []), cover]);
  return lacks.map(({ id }) => together(id, covers.get(id) ?? []));
}

function together(lackId: string, covers: readonly Cover[]): Cover {
  const uncovered = covers.reduce((sum, cover) => sum + cover.uncovered, 0);
  const from = covers
    .flatMap((cover) => cover.from)
    .map((share): Share => ({ ...share, partId: partOfKind(share.partId) }));
  const completeOn = uncovered > 0 ? null : lastOf(covers.map((cover) => cover.completeOn));
  return { lackId, from, uncovered, completeOn };
}
