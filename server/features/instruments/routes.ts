import { z } from 'zod';
import {
  AddInstrument,
  Calibrate,
  Calibrated,
  Checked,
  CheckInstrument,
  Instruments,
  Retire,
} from '#contracts/instruments.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { addInstrument, calibrate, retire } from './register.ts';
import { checkInstrument, instruments } from './service.ts';
import { gaugeStudies } from './study-routes.ts';

const Added = z.strictObject({ id: Id }).meta({ id: 'InstrumentId' });

const register: Feature = async (app, { db }) => {
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

  app.post(
    '/instruments',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['instruments'],
        summary: 'Add an instrument to the register',
        body: AddInstrument,
        response: { 201: Added, ...refusals(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addInstrument(act, request.body) })),
  );

  app.post(
    '/instruments/:id/calibrations',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['instruments'],
        summary: 'Write down a certificate',
        description:
          'The register says what the newest certificate says. Findings judged before keep what they rested on.',
        params: IdParams,
        body: Calibrate,
        response: { 201: Calibrated, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await calibrate(act, { instrumentId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/instruments/:id/retire',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['instruments'],
        summary: 'Take an instrument out of use',
        params: IdParams,
        body: Retire,
        response: { 200: Added, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await retire(act, { instrumentId: request.params.id, ...request.body }),
      })),
  );
};

export const instrumentsFeature: Feature = async (app, platform) => {
  await register(app, platform);
  await gaugeStudies(app, platform);
};
