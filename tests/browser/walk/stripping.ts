import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { button, choose, chooseOf, count, heading, press, seen } from './at-the-page.ts';

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
  readonly groups: readonly Pieces[];
}

/** What comes off the top end, step by step, and where it goes. */
const steps: readonly Step[] = [
  { title: 'Make it safe', groups: [] },
  { title: 'Drain', groups: [{ into: trays.hardware, pieces: { 'Drain plug': 1, 'Drain plug washer': 1 } }] },
  {
    title: 'Valve cover off',
    groups: [
      {
        into: trays.hardware,
        pieces: { 'Spark plug': 1, 'Valve cover': 1, 'Cover bolt': 4, 'Cover bolt seal': 4, 'Cover gasket': 1 },
      },
    ],
  },
  { title: 'Measure the lash', groups: [] },
  {
    title: 'Tensioner out, chain hung',
    groups: [{ into: trays.hardware, pieces: { Tensioner: 1, 'Tensioner bolt': 2, 'Tensioner gasket': 1 } }],
  },
  {
    title: 'Cams out',
    groups: [{ into: trays.valveTrain, pieces: { 'Cam cap': 4, 'Cam cap bolt': 8, 'Cam cap dowel': 8, Camshaft: 2 } }],
  },
  { title: 'Buckets and shims out', groups: [{ into: trays.valveTrain, pieces: { Bucket: 4, Shim: 4 } }] },
  {
    title: 'Head off',
    groups: [
      { into: trays.head, pieces: { Head: 1 } },
      {
        into: trays.hardware,
        pieces: {
          'Oil feed banjo bolt': 2,
          'Oil feed washer': 4,
          'Head bolt': 6,
          'Head bolt washer': 6,
          'Head dowel': 2,
          'Head gasket': 1,
        },
      },
    ],
  },
  {
    title: 'Cylinder off',
    groups: [
      { into: trays.cylinder, pieces: { Cylinder: 1 } },
      { into: trays.hardware, pieces: { 'Cylinder dowel': 2, 'Base gasket': 1, 'Rag in the case mouth': 1 } },
    ],
  },
  {
    title: 'Piston off',
    groups: [
      {
        into: trays.piston,
        pieces: { Circlip: 2, 'Piston pin': 1, Piston: 1, 'Compression ring': 2, 'Oil rail': 2, 'Oil spacer': 1 },
      },
    ],
  },
];

/** The one that stays in the head and is looked for. */
const shortPiece = 'Head dowel';

const sum = ({ pieces }: Pieces): number => Object.values(pieces).reduce((total, each) => total + each, 0);

/** What lies in each tray after the strip, by name. */
export function inTheTrays(): ReadonlyMap<TrayName, ReadonlyMap<string, number>> {
  const found = new Map<TrayName, Map<string, number>>();
  for (const { into, pieces } of steps.flatMap(({ groups }) => groups)) {
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

/** Follows the strip from its first step to its last, each piece counted; `after` is told of each step. */
export async function stripByProcedure(page: Page, after: (title: string) => Promise<void>): Promise<void> {
  await button(page, 'Begin: Strip the top end, Halden 355').click();
  for (const { title, groups } of steps) {
    await heading(page, title).and(page.locator('h1')).waitFor();
    if (title === 'Drain') await press(button(page, 'Open the engine'));
    for (const [index, group] of groups.entries()) {
      await countOff(page, group, index === groups.length - 1);
      if (shortPiece in group.pieces) await findIt(page);
    }
    await press(button(page, 'Step done'));
    await after(title);
  }
}
