import type { PartName } from '#contracts/parts.ts';
import { ProblemError } from '#platform/problem.ts';

export interface OrderedPart extends PartName {
  /** The part as which it is bought today: itself, or the newest of those that replaced it. */
  readonly buyAs: PartName;
}

/**
 * Why a part is ordered although it was replaced; null where it was not. Without a reason the line is refused, with what
 * to order instead.
 */
export function reasonForOld(
  { id, number, name, buyAs }: OrderedPart,
  why: string | undefined,
  at: string,
): string | null {
  if (buyAs.id === id) return null;
  const said = why?.trim() ?? '';
  if (said !== '') return said;
  throw new ProblemError(
    'refused',
    `${name} (${number}) was replaced by ${buyAs.name} (${buyAs.number}). Order that, or say why the old one is wanted all the same. Nothing was ordered.`,
    { errors: [{ pointer: `${at}/replacedWhy`, detail: `order ${buyAs.number} instead, or say why ${number}` }] },
  );
}
