import {
  FittedShims,
  FittedShimsKept,
  HeadShimsAnswer,
  HeadShimsQuestion,
  HeadsBeside,
  HeadsShimsAnswer,
  HeadsShimsQuestion,
} from '#contracts/head-shims.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import {
  headsBeside,
  proposeHeadShims,
  proposeHeadsShims,
  recordFitted,
  takeHeadShims,
  takeHeadsShims,
} from './service.ts';

/** The shims of whole heads: measured, chosen together, taken in one step. */
export const headShimsFeature: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/fitted-shims',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Keep the measured thickness of shims that are in, and what is printed on them',
        params: IdParams,
        body: FittedShims,
        response: { 201: FittedShimsKept, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await recordFitted(act, request.params.id, request.body),
      })),
  );

  app.get(
    '/jobs/:id/heads-beside',
    {
      config: { right: 'look' },
      schema: {
        tags: ['assembly'],
        summary: 'Other engines in the shop that take shims out of the same bins',
        params: IdParams,
        response: { 200: HeadsBeside, ...refusals(401, 404) },
      },
    },
    async (request) => headsBeside(db.sql, request.params.id),
  );

  app.post(
    '/jobs/:id/head-shim-proposals',
    {
      config: { right: 'look' },
      schema: {
        tags: ['assembly'],
        summary: 'Which shims would do for a whole head; keeps nothing',
        description:
          'Chosen together, out of the shims in the engine, the bins and what could be bought, by the aims that POST /api/bench/shims tells, as if what these valves asked for before were back in the bins. Verified by measuring again after fitting.',
        params: IdParams,
        body: HeadShimsQuestion,
        response: { 200: HeadShimsAnswer, ...refusals(400, 401, 404, 422) },
      },
    },
    async (request) => proposeHeadShims(db.sql, request.params.id, request.body),
  );

  app.post(
    '/jobs/:id/head-shims',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Take the shims of a whole head: keep the choices and reserve them, all or nothing',
        params: IdParams,
        body: HeadShimsQuestion,
        response: { 201: HeadShimsAnswer, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await takeHeadShims(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/head-shim-proposals',
    {
      config: { right: 'look' },
      schema: {
        tags: ['assembly'],
        summary: 'Which shims would do for several heads that draw on the same bins; keeps nothing',
        description:
          'Chosen together over all these engines, so that none takes a shim that another has more use for. A shim never moves from one engine to another.',
        body: HeadsShimsQuestion,
        response: { 200: HeadsShimsAnswer, ...refusals(400, 401, 404, 422) },
      },
    },
    async (request) => proposeHeadsShims(db.sql, request.body),
  );

  app.post(
    '/head-shims',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Take the shims of several heads: keep the choices and reserve them, all or nothing',
        body: HeadsShimsQuestion,
        response: { 201: HeadsShimsAnswer, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await takeHeadsShims(act, request.body),
      })),
  );
};
