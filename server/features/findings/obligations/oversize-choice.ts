import { type Print, roundedDifference } from '#contracts/figures.ts';
import type { Outlook } from '#contracts/obligations.ts';
import { cleanedUpTo, smallestAdequate } from '#domain/metrology/oversize.ts';
import type { BoreNow, PistonForeseen } from '#domain/metrology/predictions.ts';
import { partOfSize } from '#features/stores/parts/service.ts';
import type { Sql } from '#platform/database/client.ts';

interface Choosing {
  readonly bore: BoreNow;
  readonly foreseen: readonly PistonForeseen[];
  readonly place: { readonly familyId: string; readonly placeCode: string };
  readonly print: Print;
  /** The widest that each size class of the bore is as new, nanometres. */
  readonly classes: ReadonlyMap<string, number>;
}

/** To which size a bore is opened, why to no smaller one, and the part that is asked of stores for it. */
export async function oversizeChoice(
  sql: Sql,
  { bore, foreseen, place, print, classes }: Choosing,
): Promise<Outlook['choice']> {
  if (bore.plated === true) return null;
  const { chosen, tooSmall } = smallestAdequate(bore, foreseen);
  const said = (nm: number): string => {
    const { value, unit } = roundedDifference(nm, print);
    return `${value} ${unit}`;
  };
  const why = (sizeClass: string, high: number): string =>
    `${sizeClass} is too small: its bore is ${said(high)} at most, and this one is cleaned up at ${said(cleanedUpTo(bore))}.`;
  const small = tooSmall.map(({ piston: { sizeClass }, boreTo }) => ({
    sizeClass,
    words: why(sizeClass, boreTo?.high ?? 0),
  }));
  const passedOver = small.map(({ words }) => words);
  // A class of the bore without a piston on the sheet is told by the bore's own limits.
  for (const [sizeClass, high] of classes) {
    if (high < cleanedUpTo(bore) && !foreseen.some(({ piston }) => piston.sizeClass === sizeClass))
      small.push({ sizeClass, words: why(sizeClass, high) });
  }
  if (chosen === null) {
    const none = 'No size on the sheet will do: the bore is sleeved or renewed.';
    return { sizeClass: null, part: null, available: 0, tooSmall: small, words: [...passedOver, none].join(' ') };
  }
  const { sizeClass, available } = chosen.piston;
  const part = await partOfSize(sql, { ...place, sizeClass });
  const stock =
    part === null
      ? 'stores keep no number for it'
      : available > 0
        ? `${available} in stores as ${part.number}`
        : `none in stores: it is to be bought, as ${part.number}`;
  const least = `${sizeClass} is the smallest that will do: ${stock}.`;
  return { sizeClass, part, available, tooSmall: small, words: [...passedOver, least].join(' ') };
}
