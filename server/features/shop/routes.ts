import { z } from 'zod';
import { AddBay, AddOwner, AddVendor, ShopFacts } from '#contracts/shop.ts';
import { Id } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { addBay, addOwner, addVendor, shopFacts } from './service.ts';

const Added = z.strictObject({ id: Id }).meta({ id: 'Added' });
const added = { 201: Added, ...refusals(400, 401, 403, 409, 422) };

export const shopFeature: Feature = async (app, { db }) => {
  app.get(
    '/shop',
    {
      config: { right: 'look' },
      schema: {
        tags: ['shop'],
        summary: 'The shop as it is set up',
        description: 'Bays, people, vendors, terminals, families, and instruments with the state of their calibration.',
        response: { 200: ShopFacts, ...refusals(401, 403) },
      },
    },
    async () => shopFacts(db.sql),
  );

  app.post(
    '/bays',
    { config: { right: 'set up' }, schema: { tags: ['shop'], summary: 'Add a bay', body: AddBay, response: added } },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addBay(act, request.body) })),
  );

  app.post(
    '/vendors',
    {
      config: { right: 'set up' },
      schema: { tags: ['shop'], summary: 'Add a vendor', body: AddVendor, response: added },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addVendor(act, request.body) })),
  );

  app.post(
    '/owners',
    {
      // Whoever takes engines in writes their owners down.
      config: { right: 'counter' },
      schema: { tags: ['shop'], summary: 'Add an owner', body: AddOwner, response: added },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addOwner(act, request.body) })),
  );
};
