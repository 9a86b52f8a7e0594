import { z } from 'zod';
import { HandBackInBoxes, PackingList } from '#contracts/boxes.ts';
import { BuildSheet, HandBack, HandBackPage, RecordProof, SignOffProof } from '#contracts/hand-back.ts';
import { may } from '#contracts/rights.ts';
import { Id, IdParams, Instant } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { handBackInBoxes, packingList } from './boxes-service.ts';
import { handBack, handBackPage, recordProof, signOffProof } from './service.ts';
import { buildSheet } from './sheet.ts';

const Proved = z.strictObject({ id: Id }).meta({ id: 'Proved' });
const HandedBack = z.strictObject({ handedBackAt: Instant }).meta({ id: 'HandedBack' });

export const handBackFeature: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/hand-back',
    {
      config: { right: 'look' },
      schema: {
        tags: ['hand back'],
        summary: 'What was proved, and what still keeps the engine here',
        params: IdParams,
        response: { 200: HandBackPage, ...refusals(401, 404) },
      },
    },
    async (request) => handBackPage(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/jobs/:id/proofs',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['hand back'],
        summary: 'Record a proof, passed or not; a failed one opens an obligation',
        params: IdParams,
        body: RecordProof,
        response: { 201: Proved, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await recordProof(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/proofs/:id/sign-off',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['hand back'],
        summary: 'A second person signs a passed proof',
        params: IdParams,
        body: SignOffProof,
        response: { 200: Proved, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await signOffProof(act, request.params.id, request.body.words ?? '');
        return { status: 200, body: { id: request.params.id } };
      }),
  );

  app.post(
    '/jobs/:id/hand-back',
    {
      config: { right: 'counter' },
      schema: {
        tags: ['hand back'],
        summary: 'Hand the engine back to its owner',
        description:
          'Refused with every reason against it. A lead may override all but an open engine (which goes back in boxes, by an act of its own), work at a vendor and a handover on offer. What is still asked of stores is called off.',
        params: IdParams,
        body: HandBack,
        response: { 200: HandedBack, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await handBack(act, request.params.id, request.body),
      })),
  );

  app.get(
    '/jobs/:id/packing-list',
    {
      config: { right: 'look' },
      schema: {
        tags: ['hand back'],
        summary: 'What goes home with an engine whose owner declined, tray by tray',
        params: IdParams,
        response: { 200: PackingList, ...refusals(401, 404) },
      },
    },
    async (request) => packingList(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
  );

  app.post(
    '/jobs/:id/hand-back-in-boxes',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['hand back'],
        summary: 'Hand an open engine back in boxes, because its owner declined',
        description:
          'Only a lead. Every line of the packing list is counted; what differs from the tally is refused. The opening ends as left in boxes, which is not closed.',
        params: IdParams,
        body: HandBackInBoxes,
        response: { 200: HandedBack, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await handBackInBoxes(act, request.params.id, request.body),
      })),
  );

  app.get(
    '/jobs/:id/sheet',
    {
      config: { right: 'look' },
      schema: {
        tags: ['hand back'],
        summary: 'The build sheet: every reading, part, torque and name',
        params: IdParams,
        response: { 200: BuildSheet, ...refusals(401, 404) },
      },
    },
    async (request) => {
      const viewer = actorOf(request);
      const sheet = await buildSheet(db.sql, { jobId: request.params.id, viewerId: viewer.id });
      return may(viewer.roles, 'money') ? sheet : { ...sheet, agreed: null };
    },
  );
};
