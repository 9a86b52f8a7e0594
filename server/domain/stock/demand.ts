/**
 * One line of what a job needs from stores. Each wanted piece stands in exactly one of five places, so
 * wanted = reserved + short + issued + cancelled + notAsked. Whole numbers, none below zero.
 */
export interface DemandLine {
  readonly reserved: number;
  readonly short: number;
  readonly issued: number;
  readonly cancelled: number;
  readonly notAsked: number;
}

export type DemandPlace = keyof DemandLine;

export type DemandRefusal =
  | { readonly kind: 'count-not-whole'; readonly count: number }
  | { readonly kind: 'no-such-move'; readonly from: DemandPlace; readonly to: DemandPlace }
  | { readonly kind: 'not-so-many'; readonly from: DemandPlace; readonly there: number; readonly count: number };

export type DemandStep =
  | { readonly ok: true; readonly line: DemandLine }
  | { readonly ok: false; readonly reason: DemandRefusal };

/** Moves that exist in the trade: from where to where, and when. */
const moves: Readonly<Record<DemandPlace, readonly DemandPlace[]>> = {
  // asked for: what there is gets reserved, the rest becomes a shortage; or no longer needed
  notAsked: ['reserved', 'short', 'cancelled'],
  // goods came in, the shortage was given up, or it is asked for anew with its kit
  short: ['reserved', 'cancelled', 'notAsked'],
  // handed out; a lower count took it away; the reservation ran out or was reassigned; no longer needed
  reserved: ['issued', 'short', 'notAsked', 'cancelled'],
  // brought back unused: kept for the job, needed later, or not needed any more
  issued: ['reserved', 'notAsked', 'cancelled'],
  // wanted after all
  cancelled: ['notAsked'],
};

/** A new line: `wanted` pieces, none asked for yet. Refused unless `wanted` is a whole number ≥ 1. */
export function newDemand(wanted: number): DemandStep {
  if (!isCount(wanted)) return refuse({ kind: 'count-not-whole', count: wanted });
  return { ok: true, line: { reserved: 0, short: 0, issued: 0, cancelled: 0, notAsked: wanted } };
}

/** Its asking stands: it is short, or what it has not got yet was asked for all or nothing. */
export const stillAsked = ({
  short,
  notAsked,
  askedWhole,
}: Pick<DemandLine, 'short' | 'notAsked'> & { readonly askedWhole: boolean }): boolean =>
  short > 0 || (askedWhole && notAsked > 0);

/** How many pieces the line is about, cancelled ones included. */
export function wantedCount(line: DemandLine): number {
  return line.reserved + line.short + line.issued + line.cancelled + line.notAsked;
}

/**
 * Moves `count` pieces of a line from one place to another; the sum stays what it was. Refused, changing nothing: a
 * count that is no whole number ≥ 1, a move the trade doesn't know (a shortage can't be issued), more than are there.
 */
export function moveDemand(
  line: DemandLine,
  from: DemandPlace,
  move: { readonly to: DemandPlace; readonly count: number },
): DemandStep {
  const { to, count } = move;
  if (!isCount(count)) return refuse({ kind: 'count-not-whole', count });
  if (!moves[from].includes(to)) return refuse({ kind: 'no-such-move', from, to });
  if (count > line[from]) return refuse({ kind: 'not-so-many', from, there: line[from], count });
  return { ok: true, line: { ...line, [from]: line[from] - count, [to]: line[to] + count } };
}

/**
 * Asks for all that is not asked yet and for what is short, when so many are available: as many as there are become
 * reserved, the rest is short. Asking is never refused for want of stock; refused only when `available` is no whole
 * number ≥ 0.
 */
export function askFor(line: DemandLine, available: number): DemandStep {
  if (!Number.isSafeInteger(available) || available < 0) return refuse({ kind: 'count-not-whole', count: available });
  const open = line.notAsked + line.short;
  const got = Math.min(open, available);
  return { ok: true, line: { ...line, reserved: line.reserved + got, short: open - got, notAsked: 0 } };
}

/** More is wanted than before: `count` pieces join those not asked for yet. Refused unless a whole number ≥ 1. */
export function wantMore(line: DemandLine, count: number): DemandStep {
  if (!isCount(count)) return refuse({ kind: 'count-not-whole', count });
  return { ok: true, line: { ...line, notAsked: line.notAsked + count } };
}

function isCount(count: number): boolean {
  return Number.isSafeInteger(count) && count >= 1;
}

function refuse(reason: DemandRefusal): DemandStep {
  return { ok: false, reason };
}
