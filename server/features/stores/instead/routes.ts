import {
  LotsToChoose,
  NameAlternative,
  PartInstead,
  SupersedePart,
  WithdrawAlternative,
  WithdrawSupersession,
} from '#contracts/parts-instead.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import {
  insteadOf,
  lotsToChoose,
  nameAlternative,
  supersede,
  withdrawAlternative,
  withdrawSupersession,
} from './service.ts';

const replies = { 200: PartInstead, ...refusals(400, 401, 403, 404, 409, 422) };

export const insteadRoutes: Feature = async (app, { db }) => {
  app.get(
    '/parts/:id/instead',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What may be fitted instead of a part: what replaced it, and alternatives',
        params: IdParams,
        response: { 200: PartInstead, ...refusals(400, 401, 404) },
      },
    },
    async (request) => insteadOf(db.sql, request.params.id),
  );

  app.post(
    '/parts/:id/supersession',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Say what replaces a part',
        description:
          'A demand for the old part is served from its own lots first (`use up`) or no more (`new only`), then along the chain to its end.',
        params: IdParams,
        body: SupersedePart,
        response: replies,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await supersede(act, { partId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/parts/:id/supersession/withdraw',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Take back that a part is replaced',
        params: IdParams,
        body: WithdrawSupersession,
        response: replies,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await withdrawSupersession(act, { partId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/parts/:id/alternatives',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Name a part that will do in the place of another, and when',
        description: 'Never taken by rule: somebody takes it for a demand line and says why.',
        params: IdParams,
        body: NameAlternative,
        response: replies,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await nameAlternative(act, { toPartId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/parts/:id/alternatives/withdraw',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Say that an alternative will not do any more',
        params: IdParams,
        body: WithdrawAlternative,
        response: replies,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await withdrawAlternative(act, { toPartId: request.params.id, ...request.body }),
      })),
  );

  app.get(
    '/demand-lines/:id/lots',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Lots that a demand line may be served from by choice',
        params: IdParams,
        response: { 200: LotsToChoose, ...refusals(400, 401, 404) },
      },
    },
    async (request) => lotsToChoose(db.sql, request.params.id),
  );
};
