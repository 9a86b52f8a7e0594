import { Owners, OwnersQuery, Vendors } from '#contracts/contacts.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { owners, vendors } from './service.ts';

/** The people and firms outside the shop: whose engines come in, from whom parts come, to whom work goes. */
export const contactsFeature: Feature = async (app, { db }) => {
  app.get(
    '/owners',
    {
      // How to reach an owner is the counter's business.
      config: { right: 'counter' },
      schema: {
        tags: ['contacts'],
        summary: 'Owners of engines, by part of a name',
        querystring: OwnersQuery,
        response: { 200: Owners, ...refusals(400, 401, 403) },
      },
    },
    async (request) => ({ items: await owners(db.sql, request.query.search) }),
  );

  app.get(
    '/vendors',
    {
      config: { right: 'look' },
      schema: { tags: ['contacts'], summary: 'Vendors', response: { 200: Vendors, ...refusals(401) } },
    },
    async () => ({ items: await vendors(db.sql) }),
  );
};
