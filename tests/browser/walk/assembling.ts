import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { button, choose, chooseOf, heading, press, seen, stepDone } from './at-the-page.ts';
import { inTheTrays, type TrayName } from './stripping.ts';

/** Used once: new ones go on in their stead. */
const oneTime = new Set([
  'Coolant drain washer',
  'Drain plug washer',
  'Filter cover o-ring',
  'Oil filter',
  'Exhaust gasket',
  'Timing plug o-ring',
  'Cover gasket',
  'Tensioner gasket',
  'Oil feed washer',
  'Head gasket',
  'Base gasket',
  'Circlip',
]);

const backOn = (page: Page) => page.getByRole('region', { name: 'What goes back on' });

type How = 'The same, back on' | 'New in its stead';

/** Puts what is named back out of one tray. */
async function put(page: Page, of: { tray: TrayName; how: How; names: readonly string[] }): Promise<void> {
  const { tray, how, names } = of;
  if (names.length === 0) return;
  const place = backOn(page);
  const trays = place.getByRole('radiogroup', { name: 'Out of' });
  if ((await trays.count()) > 0) await choose(trays, tray);
  await chooseOf(place, 'How', how);
  for (const name of names) await button(place, new RegExp(`^All \\d+: ${name}$`)).click();
  const left = await place.getByText(/still loose\.$/).textContent();
  await press(button(place, /^(Back on|New on|Accounted for): /));
  await expect
    .poll(() => place.getByText(/still loose\.|has its place\.$/).textContent(), { timeout: 30_000 })
    .not.toBe(left);
}

async function putBackTray(page: Page, tray: TrayName): Promise<void> {
  const names = [...(inTheTrays().get(tray)?.keys() ?? [])];
  await put(page, { tray, how: 'New in its stead', names: names.filter((name) => oneTime.has(name)) });
  await put(page, {
    tray,
    how: 'The same, back on',
    names: names.filter((name) => !oneTime.has(name)),
  });
}

/** Which tray is emptied with which step. */
const steps: readonly {
  readonly title: string;
  readonly tray?: TrayName;
  readonly forTwo?: true;
  readonly measured?: true;
  /** What is tapped of what it asks. */
  readonly answer?: string;
  readonly out?: readonly string[];
}[] = [
  { title: 'Parts laid out against the job' },
  { title: 'Gasket faces clean' },
  { title: 'Clean and oiled' },
  { title: 'Ring gaps in this bore', measured: true },
  { title: 'Rings on' },
  { title: 'Piston on', tray: 'Piston and rings', forTwo: true },
  { title: 'Cylinder on', tray: 'Cylinder', out: ['Rag, case mouth'] },
  { title: 'Head ready', answer: 'They stayed in' },
  { title: 'Head on', tray: 'Head' },
  { title: 'Oil feed and earth wire on' },
  { title: 'Coolant hose on' },
  { title: 'Coolant drain screw in' },
  { title: 'Buckets and shims in' },
  { title: 'Cams in on their marks', tray: 'Valve train', forTwo: true },
  { title: 'Tensioner in, turned twice', out: ['Rag, chain tunnel'] },
  { title: 'Lash', measured: true },
  { title: 'Cover on', tray: 'Covers and hardware' },
  { title: 'Spark plug in' },
  { title: 'Exhaust and intake on', out: ['Plug, intake port', 'Plug, exhaust port'] },
  { title: 'Drain plug in' },
  { title: 'Filter in' },
];

interface Assembly {
  /** Somebody else looks at a step and signs it. */
  readonly sign: (title: string) => Promise<void>;
  readonly after: (title: string) => Promise<void>;
  /** Takes what the step requires, and comes back to it. */
  readonly measure: (title: string) => Promise<void>;
}

/** Follows the assembly from its first step to its last, every piece of the tally put where it belongs. */
export async function assembleByProcedure(page: Page, { sign, after, measure }: Assembly): Promise<void> {
  await button(page, 'Begin: Assemble the top end, Halden 355').click();
  for (const { title, tray, forTwo, measured, answer, out = [] } of steps) {
    await heading(page, title).and(page.locator('h1')).waitFor();
    if (measured) await measure(title);
    if (tray !== undefined) await putBackTray(page, tray);
    for (const name of out) {
      await press(button(page, `${name} out`));
      await button(page, `${name} out`).waitFor({ state: 'detached' });
    }
    if (answer !== undefined) await press(button(page, answer));
    await stepDone(page);
    if (forTwo) {
      await heading(page, 'Waits for a second person').waitFor();
      await sign(title);
      await press(button(page, 'To the next step'));
    }
    await after(title);
  }
  await heading(page, 'Every step is done or skipped').waitFor();
}

const step = (page: Page, name: RegExp) =>
  page.getByRole('navigation', { name: 'What is set here' }).getByRole('button', { name });

/** Ring gaps: one turned against the rule is told at once; then all as the sheet says. */
export async function placeRings(page: Page): Promise<void> {
  await step(page, /^Ring gaps/).click();
  await page.getByLabel('Gap of Second ring, degrees').fill('90');
  await seen(page.getByRole('alert'), /over the pin/);
  await button(page, 'To where they belong').click();
  for (const mark of [/^Mark “A”/, /^Mark “B”/]) await chooseOf(page, mark, 'crown');
  await button(page, 'Record the gaps').click();
  await seen(page, /^Placed by /);
}

/** A second person looks at the gaps as they stand, and signs. */
export async function signRings(page: Page, bench: string): Promise<void> {
  const before = page.url();
  await page.goto(`${bench.split('?')[0]}?step=rings`);
  await press(button(page, 'Sign the ring gaps off'));
  await seen(page, /Signed off by /);
  await page.goto(before);
}

/** Head bolts may be used again once each was looked at. */
export async function inspectBolts(page: Page): Promise<void> {
  await step(page, /^Fasteners/).click();
  await choose(page.getByRole('radiogroup', { name: 'Which set' }), 'Head bolts');
  await page.getByLabel('What was seen on them').fill('Threads clean, lengths alike');
  await press(button(page, 'Looked at each: fit to be used again'));
  await seen(page, /Settled\.$/);
}

/** Every set asked for, stage by stage in its order, by Enter; a bolt out of turn is not taken. */
export async function pullFasteners(page: Page): Promise<void> {
  await step(page, /^Fasteners/).click();
  const sets = page.getByRole('radiogroup', { name: 'Which set' });
  for (const [name, bolts, stages] of [
    ['Head bolts', 6, 2],
    ['Cam caps', 8, 2],
    ['Valve cover bolts', 4, 1],
    ['Oil feed banjo bolts', 2, 1],
    ['Tensioner bolts', 2, 1],
    ['Exhaust nuts', 2, 1],
    ['Coolant drain screw', 1, 1],
    ['Spark plug', 1, 1],
    ['Drain plug', 1, 1],
    ['Filter cover bolts', 2, 1],
  ] as const) {
    await choose(sets, name);
    await seen(page, 'Bolt 1 next');
    if (name === 'Head bolts') {
      await button(page, /^bolt 3,/).click();
      await seen(page, 'Not taken: bolt 1 comes before bolt 3. Pull them in order.');
    }
    for (let pull = 0; pull < bolts * stages; pull += 1) {
      await button(page, new RegExp(`^Bolt ${(pull % bolts) + 1} pulled at `)).press('Enter');
    }
    await seen(page, 'Every position, every stage: complete.');
  }
  await seen(step(page, /^Fasteners/), '10 of 10 sets complete');
}

/** One valve's lash keyed by blades; the shim that sets it is worked out from stock, and taken. */
export async function chooseShim(page: Page): Promise<string> {
  await step(page, /^Valve lash/).click();
  await heading(page, 'intake left').waitFor();
  // The lash was measured as it came; what it is now is keyed here.
  await button(page, 'Key the blades here').click();
  await button(page, 'blade 0.08').click();
  await button(page, 'blade 0.09').click();
  await page.getByLabel('Shim in it now, mm').fill('2.350');
  await page.keyboard.press('Enter');
  const take = button(page, /^Take 2\.\d+$/);
  await take.waitFor();
  const thickness = (await take.textContent())?.replace('Take ', '') ?? '';
  await take.click();
  await seen(page, new RegExp(`^Chosen: ${thickness} mm, by `));
  return thickness;
}

/** What still keeps the engine open, each in words; while anything does, it can't be closed. */
export async function closingRefused(page: Page): Promise<readonly string[]> {
  await step(page, /^Close and prove/).click();
  await heading(page, 'What still keeps it open').waitFor();
  const close = button(page, 'Close the engine, and sign for it');
  expect(await close.isDisabled()).toBe(true);
  const reasons = page.locator('.closing-pane .reasons li');
  await reasons.first().waitFor();
  return reasons.allTextContents();
}

/** The closing check by who put nothing back: line by line, the last removed first. */
export async function tickTheCheck(page: Page, jobId: string): Promise<void> {
  await page.goto(`/bench/${jobId}/check`);
  const title = page.getByRole('heading', { level: 1 });
  await expect.poll(() => title.textContent(), { timeout: 30_000 }).toMatch(/lines to tick$/);
  for (;;) {
    const before = (await title.textContent()) ?? '';
    if (before.startsWith('All ')) return;
    await press(button(page, 'Seen, as it says'));
    await expect.poll(() => title.textContent(), { timeout: 30_000 }).not.toBe(before);
  }
}

export async function closeIt(page: Page): Promise<void> {
  await step(page, /^Close and prove/).click();
  await seen(page, /^Nothing is against closing/);
  await page.getByLabel('What is to be said about it (optional)').fill('Turned over by hand twice, free');
  await press(button(page, 'Close the engine, and sign for it'));
  await seen(page, /^Closed and signed for by Oskar Pell, /);
}

export async function recordProofs(page: Page, names: readonly string[]): Promise<void> {
  for (const name of names) {
    const card = page.getByRole('article').filter({ has: heading(page, name) });
    await button(card, 'Record the proof').click();
    await choose(card, /^Passed$/);
    await card.getByLabel('What was seen').fill('As the sheet asks');
    await page.keyboard.press('Enter');
    await seen(card, 'A second person signs it off.');
  }
}

export async function signProofs(page: Page, names: readonly string[]): Promise<void> {
  await step(page, /^Close and prove/).click();
  for (const name of names) {
    const card = page.getByRole('article').filter({ has: heading(page, name) });
    await button(card, 'Sign it off').click();
    await seen(card, /signed off by/);
  }
}
