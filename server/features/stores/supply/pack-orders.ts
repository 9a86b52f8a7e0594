import type { PartName } from '#contracts/parts.ts';
import { inPacks, packsFor } from '#domain/stock/packs.ts';
import { ProblemError } from '#platform/problem.ts';

const most = 100_000;

/** So many ones, and in packs where it is sold by the pack: "20 (2 packs of 10)". */
export function onesInWords(ones: number, packSize: number): string {
  if (packSize === 1) return String(ones);
  const { packs, loose } = inPacks(ones, packSize);
  const whole = `${packs} ${packs === 1 ? 'pack' : 'packs'} of ${packSize}`;
  if (loose === 0) return `${ones} (${whole})`;
  return packs === 0 ? `${ones} of a pack of ${packSize}` : `${ones} (${whole} and ${loose})`;
}

const refuse = (pointer: string, words: string, detail: string): never => {
  throw new ProblemError('refused', words, { errors: [{ pointer, detail }] });
};

/** So many ones, loose and in packs, and no more than stock is kept in. */
export function onesOf(
  { packs = 0, quantity = 0 }: { readonly packs?: number | undefined; readonly quantity?: number | undefined },
  packSize: number,
  at = '',
): number {
  const ones = packs * packSize + quantity;
  if (ones <= most) return ones;
  return refuse(
    `${at}/packs`,
    `${onesInWords(ones, packSize)} are more than ${most} at once.`,
    `at most ${most} pieces`,
  );
}

export interface AskedOnes {
  readonly quantity?: number | undefined;
  readonly packs?: number | undefined;
  readonly packSize?: number | undefined;
  readonly price?: unknown;
}

export interface SoldAs {
  readonly vendor: string;
  readonly part: Pick<PartName, 'name'>;
  /** How the vendor sells it today; undefined: nobody told. */
  readonly packSize: number | undefined;
  /** Where it stands in what was asked. */
  readonly at: string;
}

/** What is ordered: whole packs, of the size in which the vendor sells them today or that was agreed with a price. */
export function orderedPacks(asked: AskedOnes, sold: SoldAs): { readonly quantity: number; readonly packSize: number } {
  const { vendor, part, at } = sold;
  const packSize = asked.packSize ?? sold.packSize ?? 1;
  if (sold.packSize !== undefined && packSize !== sold.packSize && asked.price === undefined) {
    refuse(
      `${at}/packSize`,
      `${vendor} sells ${part.name} by the pack of ${sold.packSize} today, not of ${packSize}: order it so, or say what a pack of ${packSize} costs.`,
      `it is sold by the pack of ${sold.packSize}`,
    );
  }
  const quantity = onesOf(asked, packSize, at);
  if (quantity % packSize !== 0) {
    const up = packsFor(quantity, packSize);
    const ways =
      up === 1 ? onesInWords(packSize, packSize) : `${(up - 1) * packSize} or ${onesInWords(up * packSize, packSize)}`;
    refuse(
      `${at}/quantity`,
      `${vendor} sells ${part.name} by the pack of ${packSize}: ${quantity} are no whole packs. Order ${ways}.`,
      `no whole packs of ${packSize}`,
    );
  }
  return { quantity, packSize };
}
