import { z } from 'zod';
import { OpeningRule, OpenVoices, SetOpeningRule } from '#contracts/opening-rules.ts';
import {
  ClosingCheck,
  DecideSearch,
  FillRack,
  LookAtOpening,
  NotFound,
  PutIn,
  PutInChange,
  Rack,
  RackInShop,
  Racks,
  Search,
  Searches,
  SwapPlaces,
  TakeOut,
  TickLines,
  TickSearch,
} from '#contracts/searches.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { getCheck, tickLines } from './check-service.ts';
import { putIn, settleThing } from './put-in-service.ts';
import { fillPlaces, swapPlaces } from './rack-service.ts';
import { getRack, listRacks } from './rack-view.ts';
import { decideSearch, listSearches, tickSearch } from './search-service.ts';
import { getOpeningRule, listVoices, lookAtOpening, setOpeningRule } from './voice-service.ts';

const tags = ['openings'];
const writes = refusals(400, 401, 403, 404, 409, 422);

const RackParams = z.object({ id: Id, pieceId: Id });

export const searchRoutes: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/searches',
    {
      config: { right: 'look' },
      schema: {
        tags,
        summary: 'Searches for what may be inside, with what was done in each',
        description:
          'While one is open, proofs, lash and compression readings and steps that turn the engine over are refused.',
        params: IdParams,
        response: { 200: Searches, ...refusals(400, 401, 404) },
      },
    },
    async (request) => ({
      items: await listSearches(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
    }),
  );

  app.post(
    '/searches/:id/ticks',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Tick a step of the search: looked there, not found',
        params: IdParams,
        body: TickSearch,
        response: { 200: Search, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await tickSearch(act, { id: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/searches/:id/decision',
    {
      config: { right: 'lead' },
      schema: {
        tags,
        summary: 'Decide by name, after the search, that it is not inside',
        description: 'Needs every step ticked but the last resort. It ends the lock and is printed on the build sheet.',
        params: IdParams,
        body: DecideSearch,
        response: { 200: Search, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await decideSearch(act, { id: request.params.id, reason: request.body.reason }),
      })),
  );
};

export const putInRoutes: Feature = async (app, { db }) => {
  app.post(
    '/openings/:id/put-in',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Put a rag, plug or tool into the open engine',
        description: 'It is counted: the opening does not close before it has come out, whoever signs.',
        params: IdParams,
        body: PutIn,
        response: { 200: PutInChange, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await putIn(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/put-in/:id/taken-out',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Rags, plugs or tools have come out again',
        params: IdParams,
        body: TakeOut,
        response: { 200: PutInChange, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { count, reason = '' } = request.body;
        return {
          status: 200,
          body: await settleThing(act, { id: request.params.id, act: 'taken out', count, reason }),
        };
      }),
  );

  const answers = {
    'not-found': 'What was put in is not there: it may be inside',
    found: 'What was put in has turned up',
  } as const;
  for (const path of ['not-found', 'found'] as const) {
    app.post(
      `/put-in/:id/${path}`,
      {
        config: { right: 'bench' },
        schema: {
          tags,
          summary: answers[path],
          params: IdParams,
          body: NotFound,
          response: { 200: PutInChange, ...writes },
        },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => {
          const kind = path === 'found' ? 'found' : 'not found';
          return { status: 200, body: await settleThing(act, { id: request.params.id, act: kind, ...request.body }) };
        }),
    );
  }
};

export const checkRoutes: Feature = async (app, { db }) => {
  app.get(
    '/openings/:id/check',
    {
      config: { right: 'look' },
      schema: {
        tags,
        summary: 'The closing check: the tally in reverse order of removal',
        params: IdParams,
        response: { 200: ClosingCheck, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getCheck(db.sql, { id: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/openings/:id/check',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Tick lines of the closing check, in their order',
        description:
          'By another person than who put each back. Whatever is done to a line afterwards takes its tick away.',
        params: IdParams,
        body: TickLines,
        response: { 200: ClosingCheck, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await tickLines(act, { id: request.params.id, lines: request.body.lines }),
      })),
  );
};

export const rackRoutes: Feature = async (app, { db }) => {
  app.get(
    '/openings/:id/racks',
    {
      config: { right: 'look' },
      schema: {
        tags,
        summary: 'Lines kept in order: which piece lies in which place',
        params: IdParams,
        response: { 200: Racks, ...refusals(400, 401, 404) },
      },
    },
    async (request) => ({
      items: await listRacks(db.sql, { openingId: request.params.id, viewerId: actorOf(request).id }),
    }),
  );

  app.get(
    '/racks/:id',
    {
      config: { right: 'look' },
      schema: {
        tags,
        summary: 'One rack, by the id its label leads to',
        params: IdParams,
        response: { 200: RackInShop, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getRack(db.sql, { pieceId: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/openings/:id/racks/:pieceId/swap',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Swap the pieces of two places, with a reason',
        params: RackParams,
        body: SwapPlaces,
        response: { 200: Rack, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { id: openingId, pieceId } = request.params;
        return { status: 200, body: await swapPlaces(act, { openingId, pieceId, ...request.body }) };
      }),
  );

  app.post(
    '/openings/:id/racks/:pieceId/places',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Say which places of a rack are filled and which are empty',
        description: 'For some of a set that were counted off together. Putting back on and counting off keep it too.',
        params: RackParams,
        body: FillRack,
        response: { 200: Rack, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { id: openingId, pieceId } = request.params;
        return { status: 200, body: await fillPlaces(act, { openingId, pieceId, ...request.body }) };
      }),
  );
};

export const voiceRoutes: Feature = async (app, { db }) => {
  app.get(
    '/openings/voices',
    {
      config: { right: 'look' },
      schema: {
        tags,
        summary: 'Open engines that raise their voice, and why',
        response: { 200: OpenVoices, ...refusals(401, 403) },
      },
    },
    async () => listVoices(db.sql),
  );

  app.post(
    '/openings/:id/looks',
    {
      config: { right: 'bench' },
      schema: {
        tags,
        summary: 'Looked at the open engine: covered or not',
        params: IdParams,
        body: LookAtOpening,
        response: { 200: LookAtOpening, ...writes },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await lookAtOpening(act, { id: request.params.id, ...request.body });
        return { status: 200, body: request.body };
      }),
  );

  app.get(
    '/opening-rule',
    {
      config: { right: 'look' },
      schema: {
        tags: ['shop'],
        summary: 'When an open engine raises its voice: the shop’s limits and their history',
        response: { 200: OpeningRule, ...refusals(401, 403) },
      },
    },
    async () => getOpeningRule(db.sql),
  );

  app.post(
    '/opening-rule',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['shop'],
        summary: 'Set the limits on open engines and the ends of the shifts',
        body: SetOpeningRule,
        response: { 200: OpeningRule, ...refusals(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await setOpeningRule(act, request.body),
      })),
  );
};
