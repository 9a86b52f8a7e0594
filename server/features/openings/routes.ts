import {
  AccountForPieces,
  Closed,
  CloseOpening,
  Closing,
  CountOff,
  ExplainPieces,
  FindPieces,
  MovePieces,
  Opening,
  PutBack,
  SetCover,
  TallyChange,
} from '#contracts/openings.ts';
import { IdParams, Made } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { getOpening, getOpeningOfJob } from './opening-view.ts';
import { closeOpening, getClosing, openEngine, setCover } from './service.ts';
import { checkRoutes, putInRoutes, rackRoutes, searchRoutes, voiceRoutes } from './tally-routes.ts';
import { actOnPieces, countOff } from './tally-service.ts';

export const openingsFeature: Feature = async (app, platform) => {
  await app.register(voiceRoutes, platform);
  await app.register(searchRoutes, platform);
  await app.register(putInRoutes, platform);
  await app.register(checkRoutes, platform);
  await app.register(rackRoutes, platform);
  await app.register(openingRoutes, platform);
  await app.register(closingRoutes, platform);
  await app.register(tallyRoutes, platform);
};

const openingRoutes: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/openings',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Open the engine: the first cover comes off',
        params: IdParams,
        response: { 201: Made, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await openEngine(act, request.params.id),
      })),
  );

  app.get(
    '/jobs/:id/opening',
    {
      config: { right: 'look' },
      schema: {
        tags: ['openings'],
        summary: 'The opening a job is in, else its latest',
        params: IdParams,
        response: { 200: Opening, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getOpeningOfJob(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
  );

  app.get(
    '/openings/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['openings'],
        summary: 'One opening: how far, how long, covered or not, and its tally',
        description: 'Counts of a tray that is being handed over are null until its receiver has counted it.',
        params: IdParams,
        response: { 200: Opening, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getOpening(db.sql, { id: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/openings/:id/cover',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Say whether the open engine is covered',
        params: IdParams,
        body: SetCover,
        response: { 200: SetCover, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await setCover(act, { id: request.params.id, covered: request.body.covered });
        return { status: 200, body: { covered: request.body.covered } };
      }),
  );
};

const closingRoutes: Feature = async (app, { db }) => {
  app.get(
    '/openings/:id/closing',
    {
      config: { right: 'look' },
      schema: {
        tags: ['openings'],
        summary: 'What speaks against closing the opening',
        params: IdParams,
        response: { 200: Closing, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getClosing(db.sql, { id: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/openings/:id/close',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Close the opening, and sign for it',
        description:
          'Refused with 409 `not-closed` while anything is open; `reasons` says what and how many. A lead may close all the same with `override`, a reason, unless a cover, head, cylinder or case is off.',
        params: IdParams,
        body: CloseOpening,
        response: { 200: Closed, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await closeOpening(act, { id: request.params.id, ...request.body }),
      })),
  );
};

const answers = { 200: TallyChange, ...refusals(400, 401, 403, 404, 409, 422) };

const tallyRoutes: Feature = async (app, { db }) => {
  app.post(
    '/openings/:id/pieces/off',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Count pieces off, into a tray or kept with the engine',
        description: 'A count short of what is expected opens an obligation: the piece may be inside.',
        params: IdParams,
        body: CountOff,
        response: answers,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await countOff(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/openings/:id/pieces/found',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Missing pieces were found',
        params: IdParams,
        body: FindPieces,
        response: answers,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await actOnPieces(act, { openingId: request.params.id, act: 'found', ...request.body }),
      })),
  );

  app.post(
    '/openings/:id/pieces/moved',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Move pieces into another tray or bag, or beside the engine',
        params: IdParams,
        body: MovePieces,
        response: answers,
      },
    },
    async (request, reply) => {
      const { trayId, reason } = request.body;
      const pieces = request.body.pieces.map(({ count, ...piece }) => ({ ...piece, count }));
      return write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await actOnPieces(act, {
          openingId: request.params.id,
          act: 'moved',
          pieces,
          trayId: trayId ?? undefined,
          reason,
        }),
      }));
    },
  );

  const backOn = { fitted: 'Pieces are back on', renewed: 'New pieces are on in their stead' } as const;
  for (const piece of ['fitted', 'renewed'] as const) {
    app.post(
      `/openings/:id/pieces/${piece}`,
      {
        config: { right: 'bench' },
        schema: { tags: ['openings'], summary: backOn[piece], params: IdParams, body: PutBack, response: answers },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await actOnPieces(act, { openingId: request.params.id, act: piece, ...request.body }),
        })),
    );
  }

  app.post(
    '/openings/:id/pieces/accounted',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['openings'],
        summary: 'Pieces that don’t go back on: where they are',
        params: IdParams,
        body: AccountForPieces,
        response: answers,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await actOnPieces(act, { openingId: request.params.id, act: 'accounted', ...request.body }),
      })),
  );

  const explained = {
    'never-there': ['never there', 'Missing pieces were not in the engine when it came'],
    'possibly-inside': ['possibly inside', 'Missing pieces may be inside: locks the engine, opens a search'],
  } as const;
  for (const path of ['never-there', 'possibly-inside'] as const) {
    const [piece, summary] = explained[path];
    app.post(
      `/openings/:id/pieces/${path}`,
      {
        config: { right: 'bench' },
        schema: { tags: ['openings'], summary, params: IdParams, body: ExplainPieces, response: answers },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await actOnPieces(act, { openingId: request.params.id, act: piece, ...request.body }),
        })),
    );
  }
};
