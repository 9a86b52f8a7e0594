import {
  BenchTimes,
  CustodyRule,
  OutsideInShop,
  PackingSlip,
  Periods,
  PeriodsQuery,
  ShiftEnd,
  ShiftReport,
  ShiftReports,
  SignShift,
  ToHandOver,
  WhoHeld,
  WhoHeldQuery,
} from '#contracts/custody-past.ts';
import { IdParams, Made } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { toHandOver } from './handover-view.ts';
import { benchTimesOf, periodsWithin, whoHeld } from './past-service.ts';
import { getReport, getRule, listReports, setRule, shiftEnd, signShift } from './shift-service.ts';
import { listOutsideNow, packingSlip } from './slip-service.ts';

/** Who held what at any moment, the end of a shift, and the slips of what is at a vendor. */
export const pastRoutes: Feature = async (app, platform) => {
  await app.register(askingRoutes, platform);
  await app.register(shiftRoutes, platform);
  await app.register(slipRoutes, platform);
};

const askingRoutes: Feature = async (app, { db }) => {
  app.get(
    '/custody',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Who held what at one moment: the whole shop, or one engine, tray, person or bay',
        description: '`before` and `after` are the changes around that moment, to step from one to the next.',
        querystring: WhoHeldQuery,
        response: { 200: WhoHeld, ...refusals(400, 401) },
      },
    },
    async (request) => whoHeld(db.sql, request.query),
  );

  app.get(
    '/custody/periods',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Holders over a span of time',
        querystring: PeriodsQuery,
        response: { 200: Periods, ...refusals(400, 401, 422) },
      },
    },
    async (request) => periodsWithin(db.sql, request.query),
  );

  app.get(
    '/jobs/:id/bench-times',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Time on each bench and waiting between benches',
        params: IdParams,
        response: { 200: BenchTimes, ...refusals(400, 401, 404) },
      },
    },
    async (request) => benchTimesOf(db.sql, request.params.id),
  );

  app.get(
    '/jobs/:id/to-hand-over',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'What an offer made now would say: obligations open, fasteners loose by the torque log',
        params: IdParams,
        response: { 200: ToHandOver, ...refusals(400, 401) },
      },
    },
    async (request) => toHandOver(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
  );
};

const shiftRoutes: Feature = async (app, { db }) => {
  app.get(
    '/custody/rule',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'How long an offer waits before it is overdue',
        response: { 200: CustodyRule, ...refusals(401) },
      },
    },
    async () => getRule(db.sql),
  );

  app.post(
    '/custody/rule',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['custody'],
        summary: 'Set how long an offer waits before it is overdue',
        body: CustodyRule,
        response: { 200: CustodyRule, ...refusals(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await setRule(act, request.body) })),
  );

  app.get(
    '/custody/shift-end',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'The end of a shift: who still holds what, what is unheld, unanswered or uncovered',
        response: { 200: ShiftEnd, ...refusals(401) },
      },
    },
    async () => shiftEnd(db.sql),
  );

  app.post(
    '/custody/shift-reports',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['custody'],
        summary: 'Sign the end of a shift, as it was read',
        description: 'Refused with 412 when something moved since; without a note while not all is clear.',
        body: SignShift,
        response: { 201: Made, ...refusals(400, 401, 403, 409, 412, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await signShift(act, request.body) })),
  );

  app.get(
    '/custody/shift-reports',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Ends of shifts that were signed, the latest hundred',
        response: { 200: ShiftReports, ...refusals(401) },
      },
    },
    async () => ({ items: await listReports(db.sql) }),
  );

  app.get(
    '/custody/shift-reports/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'One signed end of a shift, as it was found',
        params: IdParams,
        response: { 200: ShiftReport, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getReport(db.sql, request.params.id),
  );
};

const slipRoutes: Feature = async (app, { db }) => {
  app.get(
    '/outside-work',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'What is at a vendor now, and how late it is',
        response: { 200: OutsideInShop, ...refusals(401) },
      },
    },
    async () => listOutsideNow(db.sql),
  );

  app.get(
    '/outside-work/:id/slip',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'The packing slip of what goes to a vendor',
        params: IdParams,
        response: { 200: PackingSlip, ...refusals(400, 401, 404) },
      },
    },
    async (request) => packingSlip(db.sql, { id: request.params.id, viewerId: actorOf(request).id }),
  );
};
