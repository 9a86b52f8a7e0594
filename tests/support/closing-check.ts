import type { ClosingCheck } from '#contracts/searches.ts';
import type { Client } from './client.ts';

/** Somebody who put nothing back ticks the whole closing check, in its order. */
export async function checkAll(client: Client, openingId: string) {
  const { body }: { body: ClosingCheck } = await client.get(`/api/openings/${openingId}/check`);
  const lines = body.lines.flatMap(({ id, ticked }) => (ticked === null ? [id] : []));
  return lines.length === 0 ? undefined : client.post(`/api/openings/${openingId}/check`, { lines });
}
