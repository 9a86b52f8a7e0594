import { z } from 'zod';
import { BinsKept, BinsQuery, PickWalk, ShortLines } from '#contracts/stores-desks.ts';
import { Id } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { binsKept, pickWalk, shortLines } from './service.ts';

export const deskRoutes: Feature = async (app, { db }) => {
  app.get(
    '/stores/short',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What jobs are short of, what on order fills it, and what is late',
        response: { 200: ShortLines, ...refusals(401) },
      },
    },
    async () => shortLines(db.sql),
  );
  app.get(
    '/stores/pick-walk',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What to pick now, bin after bin as one walks past them',
        querystring: z.object({ jobId: Id.optional() }),
        response: { 200: PickWalk, ...refusals(400, 401) },
      },
    },
    async (request) => pickWalk(db.sql, request.query.jobId),
  );
  app.get(
    '/stores/bins',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Bins, closed ones too, in the order of the walk, with how much lies in each; by code or a part in it',
        querystring: BinsQuery,
        response: { 200: BinsKept, ...refusals(400, 401) },
      },
    },
    async (request) => binsKept(db.sql, request.query),
  );
};
