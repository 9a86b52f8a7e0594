import { z } from 'zod';
import {
  AssemblyPage,
  FastenerSetStanding,
  InspectFasteners,
  LogPull,
  PlaceRings,
  RingStanding,
  ShimAnswer,
  ShimQuestion,
  StrikePull,
} from '#contracts/assembly.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import {
  assemblyPage,
  inspectFasteners,
  logPull,
  proposeShim,
  recordRings,
  signRings,
  strikePull,
  takeShim,
} from './service.ts';

const Rings = z.strictObject({ rings: z.array(RingStanding) }).meta({ id: 'RingStandings' });
const Signed = z.strictObject({ id: Id }).meta({ id: 'SignedRings' });
const Struck = z.strictObject({ id: Id }).meta({ id: 'StruckPull' });

export const assemblyFeature: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/assembly',
    {
      config: { right: 'look' },
      schema: {
        tags: ['assembly'],
        summary: 'Valves, rings and fastener sets as they stand',
        params: IdParams,
        response: { 200: AssemblyPage, ...refusals(401, 404) },
      },
    },
    async (request) => assemblyPage(db.sql, request.params.id),
  );

  app.post(
    '/jobs/:id/shim-proposals',
    {
      config: { right: 'look' },
      schema: {
        tags: ['assembly'],
        summary: 'Which shim would do for one valve; keeps nothing',
        params: IdParams,
        body: ShimQuestion,
        response: { 200: ShimAnswer, ...refusals(400, 401, 404, 422) },
      },
    },
    async (request) => proposeShim(db.sql, request.params.id, request.body),
  );

  app.post(
    '/jobs/:id/shims',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Choose the shim for one valve and ask stores for it',
        params: IdParams,
        body: ShimQuestion,
        response: { 201: ShimAnswer, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await takeShim(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/jobs/:id/ring-placements',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Record where the ring gaps were turned',
        params: IdParams,
        body: PlaceRings,
        response: { 201: Rings, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: { rings: [...(await recordRings(act, request.params.id, request.body))] },
      })),
  );

  app.post(
    '/ring-placements/:id/sign-off',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Sign off ring gaps as a second person',
        params: IdParams,
        response: { 200: Signed, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await signRings(act, request.params.id);
        return { status: 200, body: { id: request.params.id } };
      }),
  );

  app.post(
    '/jobs/:id/torque-pulls',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Log one pull: the next one in order, within its stage',
        description:
          'With an adapter, `value` is what the wrench shows; the torque at the bolt, T·(L + E·cos θ)/L, is worked out, judged and kept beside it.',
        params: IdParams,
        body: LogPull,
        response: { 201: FastenerSetStanding, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await logPull(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/jobs/:id/fastener-inspections',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Say that each loosened fastener of a set was looked at and is fit to be used again',
        params: IdParams,
        body: InspectFasteners,
        response: { 201: FastenerSetStanding, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await inspectFasteners(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/torque-pulls/:id/strike',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['assembly'],
        summary: 'Strike a mistaken pull, with a reason',
        description:
          'A bolt that was turned past yield is taken out: every pull of it is struck, and a new one is asked for. It starts again at the first stage.',
        params: IdParams,
        body: StrikePull,
        response: { 200: Struck, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await strikePull(act, request.params.id, request.body);
        return { status: 200, body: { id: request.params.id } };
      }),
  );
};
