import { may, type Right } from '#contracts/rights.ts';
import type { Feature } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';

/** A terminal that has heard nothing for a while takes its line for dead (web/src/app/live.ts): it must be told of more often. */
const HEARTBEAT_MS = 15_000;
const STREAMS_PER_SESSION = 8;

/** The right somebody needs to hear of a kind of event; the rest everyone signed in may hear of. */
function rightToHear(kind: string): Right {
  return kind.startsWith('quote.') ? 'money' : 'look';
}

/** Server-sent events: `change` with ids, `refetch` when anything may have changed, `here` now and then. Ends at sign-out. */
export const liveStream: Feature = async (app, { live }) => {
  app.get('/live', { config: { right: 'look' }, schema: { hide: true } }, async (request, reply) => {
    const actor = actorOf(request);
    reply.hijack();
    const { raw } = reply;
    raw.writeHead(200, {
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-store',
      'x-accel-buffering': 'no',
      connection: 'keep-alive',
    });
    raw.write('retry: 2000\nevent: refetch\ndata: {}\n\n');
    const heartbeat = setInterval(() => raw.write('event: here\ndata: {}\n\n'), HEARTBEAT_MS);
    // Told twice, or a beat late, a stream that has ended would throw and take the whole service with it.
    const end = () => {
      clearInterval(heartbeat);
      stop();
      if (!raw.writableEnded) raw.end('event: end\ndata: {}\n\n');
    };
    const stop = live.listen({
      sessionId: actor.sessionId,
      change: (change) => {
        // Whoever may not hear of what it was still hears that the job changed: a yes ends a wait on everyone's floor.
        const heard = may(actor.roles, rightToHear(change.kind)) ? change : { ...change, kind: 'job.changed' };
        raw.write(`event: change\ndata: ${JSON.stringify(heard)}\n\n`);
      },
      refetch: () => raw.write('event: refetch\ndata: {}\n\n'),
      end,
      // Of a terminal that lost the network the server learns nothing: it opens new lines, and the old ones look open.
      drop: () => raw.destroy(),
    });
    live.keepNewest(actor.sessionId, STREAMS_PER_SESSION);
    raw.on('error', end);
    raw.on('close', end);
  });
};
