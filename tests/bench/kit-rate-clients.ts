import { Agent, request } from 'node:http';
import process from 'node:process';
import type { Asked, ClientsOf } from './kit-rate.ts';

/** The clerks of `kit-reservation.rate`, in a process of their own: a browser is never in the service's either. */
const { address, cookie } = JSON.parse(process.argv[2] ?? '') as ClientsOf;
const agent = new Agent({ keepAlive: true });

function reserve(jobId: string): Promise<void> {
  const body = JSON.stringify({ allOrNothing: true });
  return new Promise((resolve, reject) => {
    const asking = request(
      `${address}/api/jobs/${jobId}/reservations`,
      {
        agent,
        method: 'POST',
        headers: {
          cookie,
          'content-type': 'application/json',
          'content-length': body.length,
          'idempotency-key': crypto.randomUUID(),
        },
      },
      (reply) => {
        reply.resume();
        reply.on('end', () =>
          reply.statusCode === 200 ? resolve() : reject(new Error(`a kit was answered ${reply.statusCode}`)),
        );
      },
    );
    asking.on('error', reject);
    asking.end(body);
  });
}

process.on('message', async ({ clerks }: Asked) => {
  const start = performance.now();
  await Promise.all(
    clerks.map(async (jobs) => {
      for (const jobId of jobs) await reserve(jobId);
    }),
  );
  process.send?.(performance.now() - start);
});
