import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { button, choose, chooseOf, count, heading, press, seen, stepDone } from './at-the-page.ts';

const trays = {
  hardware: 'Covers and hardware',
  valveTrain: 'Valve train',
  head: 'Head',
  cylinder: 'Cylinder',
  piston: 'Piston and rings',
} as const;
export type TrayName = (typeof trays)[keyof typeof trays];

interface Pieces {
  readonly into: TrayName;
  readonly pieces: Readonly<Record<string, number>>;
}
interface Step {
  readonly title: string;
  readonly groups?: readonly Pieces[];
  /** Measured at the bench before it is done. */
  readonly measured?: true;
  /** What is tapped of what it asks. */
  readonly answer?: string;
  /** Rags and plugs that go in. */
  readonly putIn?: readonly string[];
  readonly forTwo?: true;
}

const { hardware, valveTrain, head, cylinder, piston } = trays;

/** What comes off the top end, step by step, and where it goes. */
const steps: readonly Step[] = [
  { title: 'Take it in hand', answer: 'The top end comes off' },
  { title: 'Compression and leak-down as it came', measured: true },
  { title: 'Make it safe' },
  {
    title: 'Coolant out',
    groups: [{ into: hardware, pieces: { 'Coolant drain screw': 1, 'Coolant drain washer': 1 } }],
  },
  {
    title: 'Drain',
    groups: [
      {
        into: hardware,
        pieces: {
          'Drain plug': 1,
          'Drain plug washer': 1,
        },
      },
    ],
  },
  {
    title: 'Filter out',
    groups: [{ into: hardware, pieces: { 'Filter cover bolt': 2, 'Filter cover o-ring': 1, 'Oil filter': 1 } }],
    answer: 'Dark but clean, a little fine grey',
  },
  {
    title: 'Exhaust and intake off',
    groups: [{ into: hardware, pieces: { 'Exhaust nut': 2, 'Exhaust gasket': 1, 'Intake boot clamp': 2 } }],
    putIn: ['Plug, intake port', 'Plug, exhaust port'],
  },
  { title: 'Spark plug out', groups: [{ into: hardware, pieces: { 'Spark plug': 1 } }] },
  {
    title: 'Valve cover off',
    groups: [
      {
        into: hardware,
        pieces: { 'Valve cover': 1, 'Cover bolt': 4, 'Cover bolt seal': 4, 'Cover gasket': 1 },
      },
    ],
  },
  {
    title: 'Top dead centre on compression',
    groups: [{ into: hardware, pieces: { 'Timing plug': 2, 'Timing plug o-ring': 2 } }],
  },
  { title: 'Measure the lash', measured: true },
  {
    title: 'Tensioner out, chain hung',
    groups: [{ into: hardware, pieces: { Tensioner: 1, 'Tensioner bolt': 2, 'Tensioner gasket': 1 } }],
    putIn: ['Rag, chain tunnel'],
  },
  {
    title: 'Cams out',
    groups: [
      {
        into: valveTrain,
        pieces: { 'Cam cap': 4, 'Cam cap bolt': 8, 'Cam cap dowel': 8, 'Locating half-ring': 2, Camshaft: 2 },
      },
    ],
  },
  { title: 'Buckets and shims out', groups: [{ into: valveTrain, pieces: { Bucket: 4, Shim: 4 } }] },
  {
    title: 'Oil feed and earth wire off',
    groups: [{ into: hardware, pieces: { 'Oil feed banjo bolt': 2, 'Oil feed washer': 4, 'Earth wire screw': 1 } }],
  },
  { title: 'Coolant hose off the head', groups: [{ into: hardware, pieces: { 'Coolant hose clamp': 1 } }] },
  {
    title: 'Head off',
    groups: [
      { into: head, pieces: { Head: 1 } },
      { into: hardware, pieces: { 'Head bolt': 6, 'Head bolt washer': 6, 'Head dowel': 2, 'Head gasket': 1 } },
    ],
  },
  { title: 'Head looked at on the bench', answer: 'Tight and without play: they stay in' },
  {
    title: 'Cylinder off',
    groups: [
      { into: cylinder, pieces: { Cylinder: 1 } },
      { into: hardware, pieces: { 'Cylinder dowel': 2, 'Base gasket': 1 } },
    ],
    putIn: ['Rag, case mouth'],
  },
  { title: 'What the bore looks like', answer: 'Cross-hatch or a smooth even face all round' },
  {
    title: 'Piston off',
    groups: [
      {
        into: piston,
        pieces: { Circlip: 2, 'Piston pin': 1, Piston: 1, 'Compression ring': 2, 'Oil rail': 2, 'Oil spacer': 1 },
      },
    ],
    forTwo: true,
  },
  { title: 'Covered and counted' },
];

/** The one that stays in the head and is looked for. */
const shortPiece = 'Head dowel';

const sum = ({ pieces }: Pieces): number => Object.values(pieces).reduce((total, each) => total + each, 0);

/** What lies in each tray after the strip, by name. */
export function inTheTrays(): ReadonlyMap<TrayName, ReadonlyMap<string, number>> {
  const found = new Map<TrayName, Map<string, number>>();
  for (const { into, pieces } of steps.flatMap(({ groups = [] }) => groups)) {
    const tray = found.get(into) ?? new Map<string, number>();
    found.set(into, tray);
    for (const [name, number] of Object.entries(pieces)) tray.set(name, number);
  }
  return found;
}

async function chooseTray(page: Page, name: TrayName): Promise<void> {
  const where = page.getByRole('radiogroup', { name: 'They go into' });
  if ((await where.locator('label').filter({ hasText: name }).count()) > 0) {
    await chooseOf(page, 'They go into', name);
    return;
  }
  await button(page, 'New tray').click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('What goes in it').fill(name);
  if (name === 'Head' || name === 'Cylinder') await choose(dialog, 'One thing that travels alone');
  await press(button(dialog, 'Make the tray'));
  await where.getByRole('radio', { name }).and(page.locator(':checked')).waitFor({ state: 'attached' });
}

/** Counts a group; a piece of it is one short if `missing` says so. */
async function countOff(page: Page, group: Pieces, last: boolean): Promise<void> {
  await chooseTray(page, group.into);
  for (const [name, number] of Object.entries(group.pieces)) {
    if (name === shortPiece) await count(page, name, number - 1);
    else await button(page, `All ${number}: ${name}`).click();
  }
  const isShort = shortPiece in group.pieces;
  if (isShort) await seen(page, `This stops the work: 1 × ${shortPiece} short.`);
  const counted = sum(group) - (isShort ? 1 : 0);
  const said = `${counted} ${counted === 1 ? 'piece' : 'pieces'}`;
  await button(page, last ? new RegExp(`^Count off: ${said} into`) : new RegExp(`^Only these ${said} into`)).click();
  await seen(page.getByRole('region', { name: 'What comes off' }), /^\d+ of \d+ off$/);
}

/** A piece short stops the work: no step is done until it is found. */
async function findIt(page: Page): Promise<void> {
  await heading(page, `Stop: 1 × ${shortPiece} missing`).waitFor();
  expect(await button(page, 'Step done').isDisabled()).toBe(true);
  await button(page, /^Found$/).click();
  await button(page, 'In the part that came off').click();
  await button(page, 'It is found').click();
  await heading(page, /^Stop: /).waitFor({ state: 'detached' });
}

interface Strip {
  /** Told of each step once it is done. */
  readonly after: (title: string) => Promise<void>;
  /** Takes what the step requires at the measuring bench, and comes back to the step. */
  readonly measure: (title: string) => Promise<void>;
  /** Somebody else looks and signs. */
  readonly sign: () => Promise<void>;
}

async function doStep(page: Page, step: Step, of: Strip): Promise<void> {
  const { title, groups = [], answer, putIn = [] } = step;
  await heading(page, title).and(page.locator('h1')).waitFor();
  if (step.measured) await of.measure(title);
  if (title === 'Coolant out') await press(button(page, 'Open the engine'));
  for (const [index, group] of groups.entries()) {
    await countOff(page, group, index === groups.length - 1);
    if (shortPiece in group.pieces) await findIt(page);
  }
  for (const name of putIn) {
    await press(button(page, `It is in: ${name}`));
    await button(page, `It is in: ${name}`).waitFor({ state: 'detached' });
  }
  if (answer !== undefined) await press(button(page, answer));
  await stepDone(page);
  if (step.forTwo) {
    await heading(page, 'Waits for a second person').waitFor();
    await of.sign();
    await press(button(page, 'To the next step'));
  }
  await of.after(title);
}

/** Follows the strip from its first step to its last, each piece counted. */
export async function stripByProcedure(page: Page, of: Strip): Promise<void> {
  await button(page, 'Begin: Strip the top end, Halden 355').click();
  for (const step of steps) await doStep(page, step, of);
}
