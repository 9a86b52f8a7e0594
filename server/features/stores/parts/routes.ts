import { z } from 'zod';
import { AddPart, ChangePart } from '#contracts/part-forms.ts';
import { Kit, KitsQuery, PartName, PartPage, PartSheet, PartsQuery } from '#contracts/parts.ts';
import { may } from '#contracts/rights.ts';
import { IdParams, PageQuery } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { addPart, changePart } from './form-service.ts';
import { kits, partSheet, parts } from './service.ts';

export const partRoutes: Feature = async (app, { db }) => {
  app.get(
    '/parts',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Parts by number, each with its lots',
        description: 'Prices and values are there only for those who may see money.',
        querystring: PartsQuery,
        response: { 200: PartPage, ...refusals(400, 401) },
      },
    },
    async (request) => parts(db.sql, request.query, may(actorOf(request).roles, 'money')),
  );

  app.get(
    '/parts/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'One part: lots, who has it promised, movements (paged)',
        params: IdParams,
        querystring: PageQuery,
        response: { 200: PartSheet, ...refusals(400, 401, 404) },
      },
    },
    async (request) =>
      partSheet(db.sql, request.params.id, { ...request.query, seesMoney: may(actorOf(request).roles, 'money') }),
  );

  app.post(
    '/parts',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Add one part by hand',
        body: AddPart,
        response: { 201: PartName, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addPart(act, request.body) })),
  );

  app.post(
    '/parts/:id/change',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Change what is said of a part',
        description: 'What is left out stays as it was. A part that is retired is not asked for any more.',
        params: IdParams,
        body: ChangePart,
        response: { 200: PartName, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await changePart(act, { id: request.params.id, ...request.body }),
      })),
  );

  app.get(
    '/kits',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Kits, each with its parts and how many are available',
        querystring: KitsQuery,
        response: { 200: z.strictObject({ items: z.array(Kit) }), ...refusals(400, 401) },
      },
    },
    async (request) => ({ items: await kits(db.sql, request.query.familyId) }),
  );
};
