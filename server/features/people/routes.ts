import { z } from 'zod';
import { AddPerson, ChangePerson, NewPin, OwnPin, People } from '#contracts/people.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { addPerson, changeOwnPin, changePerson, comeBack, givePin, leaveShop, people } from './service.ts';

const PersonKept = z.strictObject({ id: Id }).meta({ id: 'PersonKept' });
const kept = { 200: PersonKept, ...refusals(400, 401, 403, 404, 409, 422) };
const tags = ['people'];

export const peopleFeature: Feature = async (app, { db }) => {
  app.get(
    '/people',
    {
      config: { right: 'set up' },
      schema: {
        tags,
        summary: 'Everybody who works here or did',
        response: { 200: People, ...refusals(401, 403) },
      },
    },
    async () => people(db.sql),
  );

  app.post(
    '/people',
    {
      config: { right: 'set up' },
      schema: {
        tags,
        summary: 'Add somebody',
        body: AddPerson,
        response: { 201: PersonKept, ...refusals(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply, secrets: ['pin'] }, async (act) => ({
        status: 201,
        body: await addPerson(act, request.body),
      })),
  );

  app.patch(
    '/people/:id',
    {
      config: { right: 'set up' },
      schema: {
        tags,
        summary: 'Change a name, initials or roles',
        params: IdParams,
        body: ChangePerson,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await changePerson(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/people/:id/pin',
    {
      config: { right: 'set up' },
      schema: {
        tags,
        summary: 'Give somebody a new PIN',
        description: 'Whoever is signed in under that name has to sign in anew.',
        params: IdParams,
        body: NewPin,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply, secrets: ['pin'] }, async (act) => ({
        status: 200,
        body: await givePin(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/people/:id/leave',
    {
      config: { right: 'set up' },
      schema: {
        tags,
        summary: 'Somebody leaves the shop',
        description: 'Refused while an engine or a tray is in hand, or a handover waits for an answer.',
        params: IdParams,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await leaveShop(act, request.params.id),
      })),
  );

  app.post(
    '/people/:id/come-back',
    {
      config: { right: 'set up' },
      schema: { tags, summary: 'Somebody who left works here again', params: IdParams, response: kept },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await comeBack(act, request.params.id) })),
  );

  app.post(
    '/session/pin',
    {
      config: { right: 'look', rateLimit: { max: 10, timeWindow: '10 minutes' } },
      schema: {
        tags: ['session'],
        summary: 'Change one’s own PIN',
        description: 'Every other place one is signed in at is signed out.',
        body: OwnPin,
        response: kept,
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply, secrets: ['pin', 'newPin'] }, async (act) => ({
        status: 200,
        body: await changeOwnPin(act, request.body),
      })),
  );
};
