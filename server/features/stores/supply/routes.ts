import { BuyingRules, SetBuyingRule } from '#contracts/buying-rules.ts';
import { may } from '#contracts/rights.ts';
import { BuyingProposals, Cores, MarkCore, PartSupply, TellPrice } from '#contracts/supply.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { buyingRules, setBuyingRule } from './rules.ts';
import { cores, markCore, partSupply, tellPrice } from './service.ts';
import { buyingProposals } from './to-buy.ts';

export const supplyRoutes: Feature = async (app, { db }) => {
  app.get(
    '/stores/to-buy',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What to buy, by vendor: uncovered shortages and what runs low',
        response: { 200: BuyingProposals, ...refusals(401) },
      },
    },
    async (request) => buyingProposals(db.sql, { seesMoney: may(actorOf(request).roles, 'money') }),
  );
  app.get(
    '/parts/:id/supply',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'How a part is bought: prices, lead time, when and how many, with the computation',
        params: IdParams,
        response: { 200: PartSupply, ...refusals(400, 401, 404) },
      },
    },
    async (request) => partSupply(db.sql, request.params.id, may(actorOf(request).roles, 'money')),
  );
  app.get(
    '/stores/buying-rules',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What suggestions of when and how many to buy assume, now and before',
        response: { 200: BuyingRules, ...refusals(401) },
      },
    },
    async () => buyingRules(db.sql),
  );
  app.post(
    '/stores/buying-rules',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['stores'],
        summary: 'Set what suggestions assume from now on',
        body: SetBuyingRule,
        response: { 201: BuyingRules, ...refusals(400, 401, 403, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await setBuyingRule(act, request.body),
      })),
  );
  app.post(
    '/vendor-prices',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Write down what a vendor asks for a part from a day on',
        body: TellPrice,
        response: { 201: PartSupply, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await tellPrice(act, request.body, may(actorOf(request).roles, 'money')),
      })),
  );
  app.get(
    '/cores',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Worn pieces that vendors charge for until they come back',
        response: { 200: Cores, ...refusals(401) },
      },
    },
    async (request) => cores(db.sql, may(actorOf(request).roles, 'money')),
  );
  app.post(
    '/cores/:id/marks',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'A core was sent, or its charge credited',
        params: IdParams,
        body: MarkCore,
        response: { 201: Cores, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await markCore(act, { id: request.params.id, ...request.body }, may(actorOf(request).roles, 'money')),
      })),
  );
};
