import type { TellDate } from '#contracts/supply.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { insertPromise, lockLine, type PurchaseLine } from './queries.ts';

interface DateGiven {
  readonly promisedOn: string | null;
  /** What the vendor said; trimmed. */
  readonly words: string;
}

/** A date that moves needs a reason. */
export function refuseUnsaid(lines: readonly PurchaseLine[], { promisedOn, words }: DateGiven): void {
  const moved = lines.find((line) => line.promisedOn !== null && line.promisedOn !== promisedOn);
  if (moved === undefined || words !== '') return;
  throw new ProblemError('refused', 'A date that moves needs a reason: write what the vendor said.', {
    errors: [
      {
        pointer: '/words',
        detail:
          lines.length === 1 ? 'say why it moves' : `say why it moves, for ${moved.part.name} (${moved.part.number})`,
      },
    ],
  });
}

/** A date the vendor gave, first or slipped, of a locked line: appended, and the line's own from now on. */
export async function keepDate(act: Act, line: PurchaseLine, { promisedOn, words }: DateGiven): Promise<void> {
  await insertPromise(act.sql, { lineId: line.id, promisedOn, words, byId: act.actor.id });
  await act.event('purchase.dated', {
    data: { part: line.part.number, name: line.part.name, was: line.promisedOn, promisedOn, words },
  });
}

export async function tellDate(act: Act, asked: TellDate & { readonly id: string }) {
  const line = found(await lockLine(act.sql, asked.id), 'such purchase line');
  const given = { promisedOn: asked.promisedOn, words: asked.words?.trim() ?? '' };
  refuseUnsaid([line], given);
  await keepDate(act, line, given);
  return { orderId: line.orderId };
}
