import { z } from 'zod';
import { AddTerminal, ChangeBay, ChangeShop, ChangeTerminal, ChangeVendor } from '#contracts/shop.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import {
  addTerminal,
  changeBay,
  changeShop,
  changeTerminal,
  changeVendor,
  giveUpBay,
  giveUpTerminal,
  giveUpVendor,
} from './changing-service.ts';

const ShopKept = z.strictObject({ id: Id }).meta({ id: 'ShopKept' });
const kept = { 200: ShopKept, ...refusals(400, 401, 403, 404, 409, 422) };

/** What the lead changes of the shop as it is set up. */
export const changingShop: Feature = async (app, { db }) => {
  app.patch(
    '/shop',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Change the shop’s name, zone or language',
        body: ChangeShop,
        response: { 200: z.strictObject({}), ...refusals(400, 401, 403, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await changeShop(act, request.body) })),
  );

  app.patch(
    '/bays/:id',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Change a bay',
        description: 'A bay never takes fewer engines than stand in it, and keeps cells of its own.',
        params: IdParams,
        body: ChangeBay,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await changeBay(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/bays/:id/give-up',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Give a bay up',
        description: 'Refused while anything stands in it.',
        params: IdParams,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await giveUpBay(act, request.params.id),
      })),
  );

  app.post(
    '/terminals',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Add a terminal',
        body: AddTerminal,
        response: { 201: ShopKept, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addTerminal(act, request.body) })),
  );

  app.patch(
    '/terminals/:id',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Change a terminal',
        params: IdParams,
        body: ChangeTerminal,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await changeTerminal(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/terminals/:id/give-up',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Give a terminal up',
        params: IdParams,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await giveUpTerminal(act, request.params.id),
      })),
  );

  app.patch(
    '/vendors/:id',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Change a vendor',
        params: IdParams,
        body: ChangeVendor,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await changeVendor(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/vendors/:id/give-up',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['shop'],
        summary: 'Give a vendor up',
        description: 'Refused while it holds something of ours.',
        params: IdParams,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await giveUpVendor(act, request.params.id),
      })),
  );
};
