import { expect } from 'vitest';
import type { Shop } from './shop.ts';

const sum = { minor: '10000', currency: 'EUR' };

/** Sends a quote of one line for a job, and tells its id. */
export async function quote(shop: Shop, jobId: string): Promise<string> {
  const lines = [{ kind: 'labour', words: 'Top end', quantity: 1, each: sum }];
  const { status, body } = await shop.as.writer.post(`/api/jobs/${jobId}/quotes`, { lines });
  expect(status, JSON.stringify(body)).toBe(201);
  return body.id;
}

/** What the owner said to it: yes to all of it, or no. */
export async function answer(shop: Shop, quoteId: string, yes: boolean): Promise<void> {
  const said = { yes, ...(yes ? { sum } : {}), saidBy: 'Ingrid Falk', how: 'by telephone' };
  const { status, body } = await shop.as.writer.post(`/api/quotes/${quoteId}/answer`, said);
  expect(status, JSON.stringify(body)).toBe(200);
}

/** The end of a day so many days ahead, on the shop's clock. */
export async function endOfDay({ sql }: Shop, days: number): Promise<string> {
  const [row] = await sql<{ until: string }[]>`
    select ((now() at time zone zone)::date + ${days}::int + time '23:59') at time zone zone as until from shop`;
  return row?.until ?? '';
}
