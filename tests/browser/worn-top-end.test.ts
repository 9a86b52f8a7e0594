import type { APIRequestContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type DemoShop, openDemoShop, type Terminal } from '../support/terminals.ts';
import { halden355 } from './worn-top-end/halden-355.ts';
import { halden388 } from './worn-top-end/halden-388.ts';
import { budgetShown, type GoingOn, goTo, measure, shownFor, verdictsListed } from './worn-top-end/keyboard.ts';
import { ostrel125T } from './worn-top-end/ostrel-125-t.ts';
import { torvik615 } from './worn-top-end/torvik-615.ts';
import { type Line, verdictOf } from './worn-top-end/worksheet.ts';

let shop: DemoShop;
let nadia: Terminal;
let maren: Terminal;

beforeAll(async () => {
  shop = await openDemoShop();
  [nadia, maren] = [await shop.tapIn('nadia'), await shop.tapIn('maren')];
});
afterAll(() => shop.close());
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.picture(task.name)));

interface Worn {
  readonly family: string;
  readonly serial: string;
  readonly goingOn: GoingOn;
  readonly lines: readonly Line[];
  /** What nobody judges: figures that the sheet states, and one that the stretch is worked out with. */
  readonly unjudged: Readonly<Record<string, string>>;
  /** What was renewed or bored before: its size class goes with its limits. */
  readonly fitted: readonly { readonly placeCode: string; readonly name: string; readonly sizeClass: string }[];
}

const unjudged = (chainNew: string, volume: string, gasket: string, deck: string) => ({
  'Cam chain when new, 20 links': chainNew,
  'Cam chain, longer than new': 'only worked with',
  'Chamber, plug in': volume,
  'Head gasket, pressed': gasket,
  'Deck, piston below the cylinder’s top': deck,
});

const worn: readonly Worn[] = [
  {
    family: 'Halden 355',
    serial: 'H355-9001',
    goingOn: 'Enter',
    lines: halden355,
    unjudged: unjudged('127.00 mm', '25.4 cm³', '0.60 mm', '0.10 mm'),
    fitted: [{ placeCode: 'piston', name: 'Piston', sizeClass: 'A' }],
  },
  {
    family: 'Halden 388',
    serial: 'H388-9001',
    goingOn: 'PageDown',
    lines: halden388,
    unjudged: unjudged('127.00 mm', '27.2 cm³', '0.60 mm', '0.10 mm'),
    fitted: [{ placeCode: 'piston', name: 'Piston', sizeClass: 'B' }],
  },
  {
    family: 'Torvik 615',
    serial: 'T615-9001',
    goingOn: 'list',
    lines: torvik615,
    unjudged: unjudged('158.80 mm', '62.5 cm³', '1.00 mm', '0.30 mm'),
    fitted: [
      { placeCode: 'cylinder', name: 'Cylinder, bored', sizeClass: '+0.25' },
      { placeCode: 'piston', name: 'Piston, oversize', sizeClass: '+0.25' },
    ],
  },
  {
    family: 'Ostrel 125 T',
    serial: 'O125-9001',
    goingOn: 'Enter',
    lines: ostrel125T,
    unjudged: {},
    fitted: [{ placeCode: 'piston', name: 'Piston', sizeClass: 'A' }],
  },
];

interface Named {
  readonly id: string;
  readonly name: string;
}

const fetched = async <Body>(request: APIRequestContext, path: string): Promise<Body> =>
  (await request.get(`/api${path}`)).json();
const sent = async <Body>(request: APIRequestContext, path: string, data: object): Promise<Body> => {
  const reply = await request.post(`/api${path}`, { data, headers: { 'idempotency-key': crypto.randomUUID() } });
  expect(reply.status(), await reply.text()).toBe(201);
  return reply.json();
};

/** Takes the engine in and says what sits in it: the lead's part, before anybody measures. */
async function takenIn({ family, serial, fitted }: Worn): Promise<string> {
  const { request } = maren.context;
  const { items } = await fetched<{ items: readonly Named[] }>(request, '/families');
  const { bays } = await fetched<{ bays: readonly Named[] }>(request, '/floor');
  const idOf = (of: readonly Named[], name: string) => of.find((one) => one.name === name)?.id;
  const job = await sent<{ id: string }>(request, '/jobs', {
    engine: { serial, familyId: idOf(items, family) },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '318.5',
    complaint: 'Down on power, smokes when warm',
    bayId: idOf(bays, 'Rack'),
  });
  for (const part of fitted) await sent(request, `/jobs/${job.id}/fitted-parts`, part);
  return job.id;
}

/** The engine's measuring view on a page that notices any touch of a pointer from here on. */
async function atTheEngine(page: Page, jobId: string): Promise<() => Promise<boolean>> {
  await page.goto(`/bench/${jobId}/measure`);
  await page.locator('.measure').waitFor();
  await page.evaluate(() => {
    for (const touch of ['pointerdown', 'mousedown', 'touchstart'])
      addEventListener(touch, () => sessionStorage.setItem('touched', 'yes'), { capture: true });
  });
  return () => page.evaluate(() => sessionStorage.getItem('touched') !== null);
}

/**
 * u as its button shows it: to three decimals more than the sheet's. Blades and a hand have none beside their answer. A
 * stretch of 1.244 % stands on a sheet of two decimals: what is worked out is told to one more.
 */
function shownU({ u, found, steps }: Line): string {
  if (u === 0) return 'none';
  const [, decimals = ''] = /\.(\d+)/.exec(found) ?? [];
  const onSheet = steps.length === 0 && found.endsWith('%') ? decimals.length - 1 : Math.min(3, decimals.length);
  return `u = ${Number(u.toFixed(onSheet + 3))} ${found.split(' ').at(-1)}`;
}

describe('on paper', () => {
  test.each(worn)('$family: each verdict follows from its own figures, and all four come up', ({ lines }) => {
    for (const line of lines) expect([line.name, verdictOf(line)]).toEqual([line.name, line.verdict]);
    expect(new Set(lines.map(({ verdict }) => verdict)).size).toBe(4);
  });
});

describe.sequential('by keyboard alone', () => {
  test.each(worn)(
    'a worn $family is measured, and each verdict is that on paper',
    { timeout: 300_000 },
    async (engine) => {
      const { page } = nadia;
      const jobId = await takenIn(engine);
      const touched = await atTheEngine(page, jobId);
      const { lines, goingOn } = engine;
      for (const [nth, line] of lines.entries()) {
        if (line.steps.length === 0) continue;
        if (nth > 0) await goTo(page, line, goingOn);
        await measure(page, line);
        const shown = await shownFor(page, line);
        expect([line.name, shown.verdict]).toEqual([line.name, line.verdict]);
        expect([line.name, shown.u]).toEqual([line.name, shownU(line)]);
        const following = lines.slice(nth + 1);
        const workedOut = following.slice(
          0,
          Math.max(
            0,
            following.findIndex(({ steps }) => steps.length > 0),
          ),
        );
        for (const other of workedOut)
          expect([other.name, await shown.workedOut(other)]).toEqual([other.name, shownU(other)]);
        if (nth === 0) expect(await budgetShown(page)).toContain('Judged by ISO 14253-1:2017, 1.65 u (95 %)');
      }
      expect(await verdictsListed(page)).toEqual({
        ...engine.unjudged,
        ...Object.fromEntries(lines.map(({ name, verdict }) => [name, verdict])),
      });
      expect(await touched()).toBe(false);
      // A browser logs each refusal; the one slip that was sent before it was looked at is refused, and nothing else.
      const slips = lines.flatMap(({ steps }) => steps).filter((step) => step.endsWith('kept, as in')).length;
      const complaints = shop.complaints.filter((complaint) => complaint.includes(jobId));
      expect(complaints.filter((complaint) => !complaint.includes('status of 422'))).toEqual([]);
      expect(complaints).toHaveLength(slips);
    },
  );
});
