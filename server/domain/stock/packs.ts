/** What a vendor asks for one pack, in minor units, and how many ones of the part's unit that pack has. */
export interface PackPrice {
  readonly priceMinor: bigint;
  readonly packSize: number;
}

/**
 * The smallest number of whole packs that hold at least so many ones. The reorder rule of ordering in multiples of a
 * fixed batch, (nQ, r) in the literature; tests/outside names a source.
 */
export function packsFor(ones: number, packSize: number): number {
  return Math.ceil(Math.max(0, ones) / packSize);
}

/** So many ones as whole packs, and what is over: a pack of ten of which nine came is no pack and 9. */
export function inPacks(ones: number, packSize: number): { readonly packs: number; readonly loose: number } {
  return { packs: Math.floor(ones / packSize), loose: ones % packSize };
}

/** What so many ones out of packs are worth: price × ones ÷ pack size, rounded half up to a whole minor unit. */
export function packWorth({ priceMinor, packSize }: PackPrice, ones: number): bigint {
  const size = BigInt(packSize);
  return (2n * priceMinor * BigInt(ones) + size) / (2n * size);
}

/**
 * What ones cost that come after so many came before: the worth of all less the worth of those before. Whatever the
 * parts in which a pack comes in, they add up to its price to the last minor unit: 10.00 for three, one by one, is
 * 3.33, 3.34 and 3.33.
 */
export function worthComing(pack: PackPrice, before: number, ones: number): bigint {
  return packWorth(pack, before + ones) - packWorth(pack, before);
}

/** One thing that is needed of a part: ones for a job (its id), or for the shelf (null). */
export interface Need {
  readonly jobId: string | null;
  readonly ones: number;
}

export interface PacksToBuy {
  readonly packs: number;
  /** The job that gets them first, where they are for one alone. */
  readonly jobId: string | null;
  readonly needs: readonly Need[];
}

/**
 * The fewest whole packs of one part that cover what jobs lack and what its shelf runs low by. Pieces sold one by one are
 * bought for each job. Of packs that several jobs share none could be any one job's: they are bought together, for
 * whoever waits longest. What is over in a pack fills the shelf first.
 */
export function packsToBuy(lacks: readonly Need[], low: number, packSize: number): readonly PacksToBuy[] {
  if (packSize === 1) {
    const each = lacks.map((need) => ({ packs: need.ones, jobId: need.jobId, needs: [need] }));
    return low > 0 ? [...each, forShelf(low, 1)] : each;
  }
  const lacking = lacks.reduce((sum, { ones }) => sum + ones, 0);
  const packs = packsFor(lacking, packSize);
  const over = packs * packSize - lacking;
  const jobs = new Set(lacks.map(({ jobId }) => jobId));
  const [only] = lacks;
  const together = only === undefined ? [] : [{ packs, jobId: jobs.size === 1 ? only.jobId : null, needs: [...lacks] }];
  return low > over ? [...together, forShelf(low - over, packSize)] : together;
}

const forShelf = (ones: number, packSize: number): PacksToBuy => ({
  packs: packsFor(ones, packSize),
  jobId: null,
  needs: [{ jobId: null, ones }],
});
