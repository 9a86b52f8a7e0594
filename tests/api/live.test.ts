import { afterAll, beforeAll, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { openShop, type StaffName, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

/** What somebody's live line says, from the moment it is open. */
async function lineOf(name: StaffName, session?: string) {
  const token = session ?? (await startSession(shop.sql, { personId: shop.people[name], terminalId: undefined })).token;
  const ended = new AbortController();
  const reply = await fetch(`${shop.app.listeningOrigin}/api/live`, {
    headers: { cookie: `${SESSION_COOKIE}=${token}` },
    signal: ended.signal,
  });
  const reader = (reply.body ?? new ReadableStream<Uint8Array>()).getReader();
  const decoder = new TextDecoder();
  let said = '';
  return {
    token,
    until: async (words: string): Promise<string> => {
      while (!said.includes(words)) {
        const { value, done } = await reader.read();
        if (done) throw new Error(`The line ended without ${words}: ${said}`);
        said += decoder.decode(value, { stream: true });
      }
      return said;
    },
    end: () => ended.abort(),
  };
}

beforeAll(() => shop.app.listen({ port: 0, host: '127.0.0.1' }));

test('two sign-outs of one session at once end its line and leave the service standing', async () => {
  const line = await lineOf('technician');
  await line.until('refetch');
  const signOut = () =>
    fetch(`${shop.app.listeningOrigin}/api/session`, {
      method: 'DELETE',
      headers: { cookie: `${SESSION_COOKIE}=${line.token}` },
    });
  // Both are told to every process, whichever of them ended the session.
  await Promise.all([signOut(), signOut()]);
  const [session] = await shop.sql<{ id: string }[]>`
    select id from session where ended_at is not null order by ended_at desc limit 1`;
  for (let again = 0; again < 3; again += 1)
    await shop.sql`select pg_notify('crosshatch_session', ${session?.id ?? ''})`;
  await line.until('event: end');
  expect((await shop.as.technician.get('/api/floor')).status).toBe(200);
});

test('a quote is told to the counter; a technician hears only that the job changed, and so sees the wait go', async () => {
  const { jobId } = await takeIn(shop, { serial: 'Q-1' });
  const [counter, bench] = await Promise.all([lineOf('writer'), lineOf('technician')]);
  await Promise.all([counter.until('refetch'), bench.until('refetch')]);
  const { status } = await shop.as.writer.post(`/api/jobs/${jobId}/quotes`, {
    lines: [{ kind: 'labour', words: 'Bench', quantity: 1, each: { minor: '4711', currency: 'EUR' } }],
  });
  expect(status).toBe(201);
  // Of the take-in a line may still tell after it opened.
  expect(await counter.until('"kind":"quote.sent"')).toContain(jobId);
  const heard = await bench.until('"kind":"job.changed"');
  expect(heard).toContain(jobId);
  expect(heard).not.toContain('quote');
  counter.end();
  bench.end();
});

test('a session’s ninth line takes the place of its first, which a terminal that lost the network still seems to hold', async () => {
  const first = await lineOf('lead');
  await first.until('refetch');
  const lines = [];
  for (let more = 2; more <= 9; more += 1) lines.push(await lineOf('lead', first.token));
  await expect(first.until('event: here')).rejects.toThrow();
  const { jobId } = await takeIn(shop, { serial: 'Q-2' });
  for (const line of lines) {
    expect(await line.until(jobId)).toContain('job');
    line.end();
  }
});
