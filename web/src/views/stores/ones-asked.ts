import { inPacks } from '#domain/stock/packs.ts';

/** So many as they are sent: whole packs and loose ones, as the steppers show them. */
export function onesAsked(ones: number, packSize: number): { readonly packs?: number; readonly quantity: number } {
  if (packSize === 1) return { quantity: ones };
  const { packs, loose } = inPacks(ones, packSize);
  return { packs, quantity: loose };
}
