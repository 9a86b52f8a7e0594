import {
  BackIn,
  CustodyPage,
  CustodyQuery,
  Leave,
  Move,
  Moved,
  NewTray,
  OutsideWorks,
  SendOut,
  SentOut,
  Take,
  TrayMade,
  Trays,
  TraysInShop,
} from '#contracts/custody.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { handoverRoutes } from './handover-routes.ts';
import { leave, moveForAbsent, take } from './moving-service.ts';
import { listOutsideWork, sendOut, takeBack } from './outside-service.ts';
import { pastRoutes } from './past-routes.ts';
import { listCustody } from './past-service.ts';
import { listTrays, listTraysInShop, makeTray } from './tray-service.ts';

const countedFirst =
  'A count that differs from the tally is refused with 409, but kept, and opens its obligation at once: count again, or send `withDifference`. A count again that agrees lets it go on and leaves the obligation open.';

export const custodyFeature: Feature = async (app, platform) => {
  await app.register(trayRoutes, platform);
  await app.register(holdingRoutes, platform);
  await app.register(outsideRoutes, platform);
  await app.register(handoverRoutes, platform);
  await app.register(pastRoutes, platform);
};

const trayRoutes: Feature = async (app, { db }) => {
  app.get(
    '/trays',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Every tray in use, who holds each and where',
        response: { 200: TraysInShop, ...refusals(401) },
      },
    },
    async () => ({ items: await listTraysInShop(db.sql) }),
  );

  app.get(
    '/jobs/:id/trays',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'The trays of a job, who holds each, what is loose in them and beside the engine',
        description: 'Counts of a tray that is being handed over are null until its receiver has counted it.',
        params: IdParams,
        response: { 200: Trays, ...refusals(400, 401) },
      },
    },
    async (request) => listTrays(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/jobs/:id/trays',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Make a tray',
        params: IdParams,
        body: NewTray,
        response: { 201: TrayMade, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await makeTray(act, request.params.id, request.body),
      })),
  );
};

const holdingRoutes: Feature = async (app, { db }) => {
  const moving = { params: IdParams, response: { 200: Moved, ...refusals(400, 401, 403, 404, 409, 422) } };

  app.post(
    '/engines/:id/take',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Take an engine and trays from a bay, counted',
        description: countedFirst,
        body: Take,
        ...moving,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await take(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/engines/:id/leave',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Leave an engine and trays in a bay, counted',
        description: countedFirst,
        body: Leave,
        ...moving,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await leave(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/engines/:id/move',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['custody'],
        summary: 'Move what somebody absent holds, with a reason and a count',
        description: `Offers in which it stands are withdrawn. ${countedFirst}`,
        body: Move,
        ...moving,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await moveForAbsent(act, request.params.id, request.body),
      })),
  );

  app.get(
    '/engines/:id/custody',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Who held an engine and its trays, latest first',
        description: 'With `at`: only who held them at that instant.',
        params: IdParams,
        querystring: CustodyQuery,
        response: { 200: CustodyPage, ...refusals(400, 401) },
      },
    },
    async (request) => {
      const { at, after, limit } = request.query;
      return listCustody(db.sql, { engineId: request.params.id, at, after, limit });
    },
  );
};

const outsideRoutes: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/outside-work',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'What of a job went to a vendor, for what, due when',
        params: IdParams,
        response: { 200: OutsideWorks, ...refusals(400, 401) },
      },
    },
    async (request) => ({ items: await listOutsideWork(db.sql, request.params.id) }),
  );

  app.post(
    '/jobs/:id/outside-work',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Send a tray or the engine to a vendor, counted',
        description: countedFirst,
        params: IdParams,
        body: SendOut,
        response: { 201: SentOut, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await sendOut(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/outside-work/:id/back',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Take back what was at a vendor, counted',
        description: countedFirst,
        params: IdParams,
        body: BackIn,
        response: { 200: Moved, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await takeBack(act, request.params.id, request.body),
      })),
  );
};
