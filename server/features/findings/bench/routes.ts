import { BenchView } from '#contracts/bench.ts';
import { Findings } from '#contracts/findings.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { findingsOfJob } from '../judging/service.ts';
import { benchOf } from './service.ts';

export const benchRoutes: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/bench',
    {
      config: { right: 'look' },
      schema: {
        tags: ['findings'],
        summary: 'What a measuring bench needs for a job',
        params: IdParams,
        response: { 200: BenchView, ...refusals(400, 401, 404) },
      },
    },
    async (request) => benchOf(db.sql, request.params.id),
  );

  app.get(
    '/jobs/:id/findings',
    {
      config: { right: 'look' },
      schema: {
        tags: ['findings'],
        summary: 'Every finding of a job, superseded and withdrawn ones too',
        params: IdParams,
        response: { 200: Findings, ...refusals(400, 401, 404) },
      },
    },
    async (request) => findingsOfJob(db.sql, request.params.id),
  );
};
