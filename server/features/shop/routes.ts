import { z } from 'zod';
import { AddBay, AddOwner, AddVendor, Checked, CheckInstrument, Instruments, ShopFacts } from '#contracts/shop.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { checkInstrument, instruments } from './instrument-service.ts';
import { addBay, addOwner, addVendor, shopFacts } from './service.ts';

const Added = z.strictObject({ id: Id }).meta({ id: 'Added' });
const added = { 201: Added, ...refusals(400, 401, 403, 409, 422) };

const setUp: Feature = async (app, { db }) => {
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

const gauges: Feature = async (app, { db }) => {
  app.get(
    '/instruments',
    {
      config: { right: 'look' },
      schema: {
        tags: ['instruments'],
        summary: 'Instruments, with their calibration and last check',
        response: { 200: Instruments, ...refusals(401, 403) },
      },
    },
    async () => instruments(db.sql),
  );

  app.post(
    '/instruments/:id/checks',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['instruments'],
        summary: 'Record today’s check',
        description:
          'The zero error is what it shows on its master less what the master is. Readings rest on the last check.',
        params: IdParams,
        body: CheckInstrument,
        response: { 201: Checked, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await checkInstrument(act, { instrumentId: request.params.id, ...request.body }),
      })),
  );
};

export const shopFeature: Feature = async (app, platform) => {
  await setUp(app, platform);
  await gauges(app, platform);
};
