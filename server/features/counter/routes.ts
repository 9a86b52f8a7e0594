import { z } from 'zod';
import {
  AnswerQuote,
  JobQuotes,
  MakePromise,
  OpenQuotes,
  PromiseMade,
  QuoteDraft,
  SendQuote,
} from '#contracts/counter.ts';
import { Id, IdParams, Money } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { draftQuote } from './draft.ts';
import { answerQuote, makePromise, openQuotes, promisesOf, quotesOf, sendQuote } from './service.ts';

const Sent = z.strictObject({ id: Id, number: z.int(), total: Money }).meta({ id: 'QuoteSent' });
const Answered = z.strictObject({ quoteId: Id, yes: z.boolean() }).meta({ id: 'QuoteAnswered' });
const Promises = z
  .strictObject({ items: z.array(PromiseMade) })
  .meta({ id: 'JobPromises', description: 'Newest first' });

const promises: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/promises',
    {
      config: { right: 'counter' },
      schema: {
        tags: ['counter'],
        summary: 'Promise the owner a date',
        params: IdParams,
        body: MakePromise,
        response: { 201: PromiseMade, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await makePromise(act, { jobId: request.params.id, ...request.body }),
      })),
  );

  app.get(
    '/jobs/:id/promises',
    {
      config: { right: 'look' },
      schema: {
        tags: ['counter'],
        summary: 'Every date the owner was told',
        params: IdParams,
        response: { 200: Promises, ...refusals(400, 401, 404) },
      },
    },
    async (request) => ({ items: [...(await promisesOf(db.prisma, request.params.id))] }),
  );
};

const quotes: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/quotes',
    {
      config: { right: 'money' },
      schema: {
        tags: ['counter'],
        summary: 'Send a quote',
        description: 'The sum is worked out here. A later quote takes the place of an earlier one.',
        params: IdParams,
        body: SendQuote,
        response: { 201: Sent, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await sendQuote(act, { jobId: request.params.id, ...request.body }),
      })),
  );

  app.get(
    '/jobs/:id/quotes',
    {
      config: { right: 'money' },
      schema: {
        tags: ['counter'],
        summary: 'Quotes of a job, newest first',
        params: IdParams,
        response: { 200: JobQuotes, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request) => quotesOf(db.prisma, request.params.id),
  );

  app.get(
    '/quotes',
    {
      config: { right: 'money' },
      schema: {
        tags: ['counter'],
        summary: 'The newest quote of every open job',
        response: { 200: OpenQuotes, ...refusals(401, 403) },
      },
    },
    async () => openQuotes(db.sql),
  );

  app.get(
    '/jobs/:id/quote-draft',
    {
      config: { right: 'money' },
      schema: {
        tags: ['counter'],
        summary: 'What a quote of this job would hold',
        params: IdParams,
        response: { 200: QuoteDraft, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request) => draftQuote(db, request.params.id),
  );

  app.post(
    '/quotes/:id/answer',
    {
      config: { right: 'money' },
      schema: {
        tags: ['counter'],
        summary: 'Record the owner’s yes or no',
        params: IdParams,
        body: AnswerQuote,
        response: { 200: Answered, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await answerQuote(act, { quoteId: request.params.id, ...request.body });
        return { status: 200, body: { quoteId: request.params.id, yes: request.body.yes } };
      }),
  );
};

export const counterFeature: Feature = async (app, platform) => {
  await promises(app, platform);
  await quotes(app, platform);
};
