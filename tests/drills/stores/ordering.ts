import { type Does, euros, of, reason } from './doing.ts';

/** What is ordered and comes later: the day on which it is to come, which moves, and the delivery. */
export const ordering = {
  /** An order of all that is not kept by serial. */
  order: async ({ stage, shop, post, one }) => {
    const lines = stage.parts.slice(0, -1).map((partId, at) => ({
      partId,
      quantity: one.pieces + 1,
      replacedWhy: reason,
      ...(at === 0 ? { promisedOn: '2099-11-01' } : {}),
    }));
    const answer = await post('/api/purchase-orders', { vendorId: shop.vendorId, lines });
    if (answer.status === 201)
      stage.ordered.push(
        ...answer.body.lines.map(({ id, part }: { id: string; part: { id: string } }) => ({ id, partId: part.id })),
      );
    return answer;
  },
  /** The day of up to three lines at once, of whichever orders, in whichever sequence. */
  'move days': async ({ stage, post, one }) => {
    const chosen = [one.lot, one.lot + one.job, one.lot + one.toJob].flatMap(
      (pick) => of(stage.ordered, pick)?.id ?? [],
    );
    if (chosen.length === 0) return undefined;
    const lineIds = [...new Set(one.whole ? chosen : chosen.toReversed())];
    const promisedOn = one.pieces === 1 && !one.whole ? null : `2099-11-${10 + ((one.lot + one.job) % 20)}`;
    return post('/api/purchase-lines/changes', { lineIds, promisedOn, words: reason });
  },
  'take a delivery': async ({ stage, post, one, binId }) => {
    const line = of(stage.ordered, one.lot);
    if (line === undefined) return undefined;
    const [quantity, cost] = [one.pieces, one.lot * one.pieces];
    const lines = [{ purchaseLineId: line.id, binId, quantity, cost: euros(cost), acceptOver: true }];
    const answer = await post('/api/deliveries', { lines });
    if (answer.status !== 201) return answer;
    stage.told.came += quantity;
    stage.told.cost += cost;
    stage.lots[stage.parts.indexOf(line.partId)]?.push(answer.body.lines[0].lotId);
    return answer;
  },
} satisfies Readonly<Record<string, Does>>;
