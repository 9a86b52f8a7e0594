import type { Handover, Trays } from '#contracts/custody.ts';
import type { Answer } from '../../support/client.ts';
import type { StaffName } from '../../support/shop.ts';
import type { Act } from './acts.ts';
import { checkRackEvents, checkRacksTold, type Looking } from './racks-told.ts';
import { type Belief, blindTo, type EngineBelief, type LineBelief, openOffers, WITH_ENGINE } from './state.ts';
import type { World } from './world.ts';

/** A number as large as this stands for nothing else in a reply: see `aCountOfItsOwn`. */
const LEAST_TOLD_APART = 1000;

/** Numbers of givers that this person must read nowhere. */
function secretsFrom(engine: EngineBelief, who: StaffName): readonly number[] {
  const blind = blindTo(engine, who);
  if (blind.length === 0) return [];
  const isHidden = (line: LineBelief) => blind.some(({ tray }) => (line.lies.get(tray) ?? 0) > 0);
  const shown = new Set(
    engine.lines
      .filter((line) => !isHidden(line))
      .flatMap(({ expected, off, fitted, renewed, accounted, inside, lies }) => [
        ...[expected, off, fitted, renewed, accounted, inside, expected - off],
        ...lies.values(),
      ]),
  );
  return blind
    .flatMap(({ lines }) => lines.map(({ given }) => given))
    .filter((given) => given >= LEAST_TOLD_APART && !shown.has(given));
}

/** The text of an answer without ids and instants: digits there mean nothing. */
const withoutIds = (body: unknown): string =>
  JSON.stringify(body ?? null)
    .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g, '')
    .replaceAll(/\d{4}-\d\d-\d\d(T[\d:.]+(Z|[+-]\d\d:\d\d))?/g, '');

function refuseTelling({ body }: Answer, secrets: readonly number[], words: string): void {
  if (secrets.length === 0) return;
  const text = withoutIds(body);
  for (const secret of secrets) {
    const at = text.search(new RegExp(`(?<!\\d)${secret}(?!\\d)`));
    if (at >= 0)
      throw new Error(`${words} tells ${secret} before it is counted: …${text.slice(Math.max(0, at - 80), at + 40)}…`);
  }
}

/** Whoever acts is answered no number of a giver's that they are yet to count, done or refused. */
export function checkAnswer(belief: Belief, { act, answer }: { readonly act: Act; readonly answer: Answer }): void {
  refuseTelling(answer, secretsFrom(belief.engines[act.engine], act.who), `the answer to ${act.who}'s ${act.kind}`);
}

/** Nobody but the giver is told what a tray holds before its receiver has counted it; then everybody is. */
export async function checkBlindness(world: World, looking: Looking): Promise<void> {
  const { shop, names } = world;
  const { belief, engine, who } = looking;
  const offers = openOffers(belief.engines[engine]);
  const { items, withEngine }: Trays = (await shop.as[who].get(`/api/jobs/${names.engines[engine].jobId}/trays`)).body;
  const idOf = (tray: string): string => (tray === WITH_ENGINE ? names.engines[engine].engineId : names.id(tray));
  for (const offer of offers) {
    const read: Handover = (await shop.as[who].get(`/api/handovers/${names.id(offer.key)}`)).body;
    for (const { tray, attempts, lines } of offer.trays) {
      const blind = attempts === 0 && who !== offer.giver;
      const shown = read.trays.find(({ trayId }) => trayId === idOf(tray))?.lines ?? [];
      const hidden = shown.every(({ given }) => given === null);
      if (shown.length !== lines.length || hidden !== blind) {
        throw new Error(`${who} reads of ${offer.key}: ${JSON.stringify(shown)}; it is ${blind ? '' : 'not '}blind`);
      }
      const pieces = tray === WITH_ENGINE ? withEngine : (items.find(({ id }) => id === idOf(tray))?.pieces ?? []);
      if (pieces.some(({ count }) => (count === null) !== blind)) {
        throw new Error(`${who} reads of tray ${tray}: ${JSON.stringify(pieces)}; it is ${blind ? '' : 'not '}blind`);
      }
    }
  }
  await checkRacksTold(world, looking);
  await checkRackEvents(world, looking);
  if (process.env.CROSSHATCH_DRILL_STEPS !== undefined) await checkEveryPage(world, looking);
}

/**
 * A list of the whole shop without what it tells of engines of other histories: a number of theirs may happen to be the
 * same as one of this engine's that is secret.
 */
function ofThisEngine(
  told: unknown,
  { jobId, engineId }: { readonly jobId: string; readonly engineId: string },
): unknown {
  if (Array.isArray(told)) return told.map((each) => ofThisEngine(each, { jobId, engineId }));
  if (typeof told !== 'object' || told === null) return told;
  const facts = Object.fromEntries(Object.entries(told));
  const idOf = (of: unknown): unknown => (typeof of === 'object' && of !== null && 'id' in of ? of.id : of);
  const isOther = (of: unknown, own: string): boolean => typeof idOf(of) === 'string' && idOf(of) !== own;
  if (isOther(facts.engine ?? facts.engineId, engineId) || isOther(facts.job ?? facts.jobId, jobId)) return null;
  return Object.fromEntries(Object.entries(facts).map(([fact, of]) => [fact, ofThisEngine(of, { jobId, engineId })]));
}

/** What is told of the whole shop. */
const lists = [
  '/api/floor',
  '/api/handovers?limit=200',
  '/api/trays',
  '/api/custody/shift-end',
  '/api/openings/voices',
];

/** In the long drill: no page of the engine, no list of the shop and no event tells such a number to somebody who is yet to count it. */
async function checkEveryPage({ shop, names }: World, { belief, engine: index, who }: Looking): Promise<void> {
  const engine = belief.engines[index];
  const secrets = secretsFrom(engine, who);
  if (secrets.length === 0) return;
  const { jobId, engineId } = names.engines[index];
  const opening = engine.opening === null ? undefined : names.id(engine.opening.key);
  const pages = [
    ...['', '/events?limit=200', '/custody'].map((page) => `/api/engines/${engineId}${page}`),
    ...[
      '',
      '/bench',
      '/obligations',
      '/searches',
      '/to-hand-over',
      '/outside-work',
      '/sheet',
      '/hand-back',
      '/trays',
    ].map((page) => `/api/jobs/${jobId}${page}`),
    ...(opening === undefined
      ? []
      : ['', '/check', '/closing', '/racks'].map((page) => `/api/openings/${opening}${page}`)),
    ...engine.offers.map(({ key }) => `/api/handovers/${names.id(key)}`),
    ...engine.away.map(({ key }) => `/api/outside-work/${names.id(key)}/slip`),
  ];
  for (const url of pages) refuseTelling(await shop.as[who].get(url), secrets, `${url}, read by ${who},`);
  for (const url of lists) {
    const { body, ...answer } = await shop.as[who].get(url);
    const own = ofThisEngine(body, { jobId, engineId });
    refuseTelling({ ...answer, body: own }, secrets, `${url}, read by ${who},`);
  }
}
