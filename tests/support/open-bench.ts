import type { Answer, Client } from './client.ts';
import { type Shop, takeIn } from './shop.ts';

/** An open engine in the technician's hands, with one tray. */
export interface TallyBench {
  readonly jobId: string;
  readonly engineId: string;
  readonly openingId: string;
  readonly trayId: string;
  readonly as: Client;
  /** Counts lines off into its tray. */
  readonly off: (pieces: readonly object[], more?: object) => Promise<Answer>;
  /** Any other act on its pieces. */
  readonly act: (what: string, body: object) => Promise<Answer>;
  /** The facts of its events of one kind, the oldest first. */
  readonly events: (kind: string) => Promise<readonly Record<string, unknown>[]>;
}

let serials = 0;

export async function openBench(shop: Shop, who: 'technician' | 'colleague' = 'technician'): Promise<TallyBench> {
  serials += 1;
  const as = shop.as[who];
  const { jobId, engineId } = await takeIn(shop, { serial: `H355-T${serials}` });
  await as.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  const { body: opening } = await as.post(`/api/jobs/${jobId}/openings`);
  const { body: tray } = await as.post(`/api/jobs/${jobId}/trays`, { name: 'Small parts' });
  const openingId: string = opening.id;
  return {
    jobId,
    engineId,
    openingId,
    trayId: tray.id,
    as,
    off: (pieces, more = {}) => as.post(`/api/openings/${openingId}/pieces/off`, { pieces, trayId: tray.id, ...more }),
    act: (what, body) => as.post(`/api/openings/${openingId}/pieces/${what}`, body),
    events: async (kind) => {
      const rows = await shop.sql<{ data: Record<string, unknown> }[]>`
        select data from event where job_id = ${jobId} and kind = ${kind} order by recorded_at, id`;
      return rows.map(({ data }) => data);
    },
  };
}
