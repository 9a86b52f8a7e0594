import type { Pick, PickWalk } from '#contracts/stores-desks.ts';

/** One thing to take out of one bin. */
export interface Stop extends Pick {
  readonly bin: PickWalk['stops'][number]['bin'];
}

export const stopId = ({ demandLineId, lotId }: Pick): string => `${demandLineId} ${lotId}`;
