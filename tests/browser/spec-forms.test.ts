import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let lead: AtTerminal;

beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
  lead = await dashboard.at('lead', { width: 1280, height: 1000 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const faultsOf = ({ page }: AtTerminal) => violationsOn(page);
const keep = () => lead.page.getByRole('button', { name: 'Keep in the draft' }).click();
const kept = () => lead.page.getByRole('dialog').waitFor({ state: 'detached' });
const field = (label: string) => lead.page.getByLabel(label, { exact: true });
const draft = async (): Promise<SpecSheetDocument> =>
  (await shop.as.lead.get(`/api/spec-revisions/${lead.page.url().split('/').at(-1)}/sheet.json`)).body;

describe('a lead fills in a draft by forms alone', () => {
  test('a dimension with the heights of its positions, put in another order', async () => {
    const { page } = lead;
    await page.goto('/specs');
    await page.getByRole('button', { name: 'Draft the next revision' }).click();
    await page.getByText('This is a draft.').waitFor();
    await page.getByRole('button', { name: 'Add a dimension' }).click();
    await page.getByLabel('Code', { exact: true }).first().fill('sleeve');
    await page.getByLabel('Name', { exact: true }).fill('Sleeve, size');
    await page.getByLabel('Place on the engine').selectOption('cylinder');
    await page.getByLabel('How it is worked out').selectOption('size');
    const line = page.locator('.position-line');
    for (const [at, code, axis, height] of [
      [0, 'low', 'across', '70'],
      [1, 'high', 'along', 'ten'],
    ] as const) {
      if (at > 0) await page.getByRole('button', { name: 'Add a position' }).click();
      await line.nth(at).getByLabel('Code', { exact: true }).fill(code);
      await line
        .nth(at)
        .getByLabel('Height, counted from the top')
        .fill(String(2 - at));
      await line.nth(at).getByLabel('Axis').fill(axis);
      await line.nth(at).getByLabel('Distance from the top', { exact: true }).fill(height);
    }
    await page.getByRole('button', { name: 'Position high: one up' }).click();
    await keep();
    await line.first().getByText('"ten" is not a number').waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await line.first().getByLabel('Distance from the top', { exact: true }).fill('10');
    await keep();
    await kept();
    expect((await draft()).dimensions.find(({ code }) => code === 'sleeve')?.positions).toEqual([
      { code: 'high', label: '', level: 1, axis: 'along', height: { value: '10', unit: 'mm' } },
      { code: 'low', label: '', level: 2, axis: 'across', height: { value: '70', unit: 'mm' } },
    ]);
  });

  test('a place: added with its expansion, edited, put first, taken out; one that is measured at stays, and why is said', async () => {
    const { page } = lead;
    const named = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
    const codes = async () => (await draft()).places.map(({ code }) => code);
    const before = await codes();
    await named('Add a place').click();
    await field('Code').fill('oil-pump');
    await field('Name').fill('Oil pump');
    await field('Expansion, 10⁻⁶ per kelvin').fill('warm');
    await keep();
    await page.getByText('"warm" is no expansion').first().waitFor();
    await field('Expansion, 10⁻⁶ per kelvin').fill('23.5');
    await field('Its standard uncertainty, 10⁻⁶ per kelvin').fill('1.2');
    expect(await faultsOf(lead)).toEqual([]);
    await keep();
    await kept();
    expect((await draft()).places.at(-1)).toEqual({
      code: 'oil-pump',
      name: 'Oil pump',
      layer: null,
      material: '',
      expansion: { value: '23.5', uncertainty: '1.2' },
      plated: false,
    });
    await named('Oil pump: one up').click();
    await expect.poll(async () => (await codes()).indexOf('oil-pump')).toBe(before.length - 1);
    await named('Edit Oil pump').click();
    await field('Material').fill('magnesium');
    await keep();
    await kept();
    expect((await draft()).places.find(({ code }) => code === 'oil-pump')).toMatchObject({ material: 'magnesium' });
    await named('Edit Oil pump').click();
    await named('Take the place out').click();
    await kept();
    expect(await codes()).toEqual(before);
    await named('Edit Cylinder').click();
    await page.getByText(/Can’t be taken out, nor its code changed, since this is measured here: .*Bore/).waitFor();
    expect(await named('Take the place out').count()).toBe(0);
    await named('Close').click();
  });

  test('a set of fasteners: its coordinates pasted and drawn at once, a fault told at its field', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: 'Add a set of fasteners' }).click();
    await field('Code').fill('case');
    await field('Name').fill('Case bolts');
    await field('Thread').fill('M6x1.0');
    await field('Property class').fill('8.8');
    await page.getByLabel('Condition of the thread').selectOption('oiled');
    await page.getByLabel('When it was loosened').selectOption('inspect');
    await field('Torque').fill('1o');
    await page.getByRole('button', { name: 'Add a stage' }).click();
    await page.getByLabel('By').nth(1).selectOption('angle');
    await field('Angle').fill('90');
    const paste = page.getByLabel('Or paste coordinates');
    await paste.fill('40 -30\n-40');
    await page.getByText('Line 2: takes two figures').waitFor();
    const drawn = page.getByRole('dialog').locator('.bolt-map [data-bolt]');
    expect(await drawn.count()).toBe(0);
    await paste.fill('2\t40,0\t-30\n1\t-40,0\t30\n3\t-40,0\t-30');
    await page.getByRole('dialog').getByText('3 fasteners placed.').waitFor();
    expect(await drawn.count()).toBe(3);
    expect(await field('x').evaluateAll((of) => of.map((one) => (one as HTMLInputElement).value))).toEqual([
      '-40.0',
      '40.0',
      '-40.0',
    ]);
    await page.getByRole('button', { name: 'Add a fastener' }).click();
    await field('x').nth(3).fill('40');
    await page.getByText('Not drawn, since it can’t be read: 4.').waitFor();
    await keep();
    await page.getByText('"1o" is not a number').waitFor();
    await page.getByText('is empty', { exact: true }).waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await field('Torque').fill('10');
    await field('y').nth(3).fill('30');
    await page.getByRole('button', { name: 'Fastener 4: one up' }).click();
    await keep();
    await kept();
    const mm = (value: string) => ({ value, unit: 'mm' });
    expect((await draft()).fasteners.find(({ code }) => code === 'case')).toMatchObject({
      condition: 'oiled',
      reuse: 'inspect',
      positions: [
        { x: mm('-40.0'), y: mm('30') },
        { x: mm('40.0'), y: mm('-30') },
        { x: mm('40'), y: mm('30') },
        { x: mm('-40.0'), y: mm('-30') },
      ],
      stages: [
        { torque: { value: '10', unit: 'N.m' }, angle: null },
        { torque: null, angle: { value: '90', unit: 'deg' } },
      ],
    });
  });

  test('a set is changed, moved before another, and taken out', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: 'Add a set of fasteners' }).click();
    await field('Code').fill('cover');
    await field('Name').fill('Cover bolts');
    await field('Torque').fill('8');
    await page.getByLabel('Or paste coordinates').fill('0 0');
    await keep();
    await kept();
    await page.getByRole('button', { name: 'Cover bolts: one up' }).click();
    await page
      .locator('.set h3')
      .nth((await draft()).fasteners.length - 1)
      .getByText('Case bolts')
      .waitFor();
    await page.getByRole('button', { name: 'Edit Case bolts' }).click();
    await field('Tool').fill('8 mm socket');
    await page.getByRole('button', { name: 'Stage 2: take out' }).click();
    await keep();
    await kept();
    await page.getByRole('button', { name: 'Edit Cover bolts' }).click();
    await page.getByRole('button', { name: 'Take the set out' }).click();
    await kept();
    const { fasteners } = await draft();
    expect(fasteners.map(({ code }) => code)).not.toContain('cover');
    expect(fasteners.at(-1)).toMatchObject({ code: 'case', tool: '8 mm socket', stages: [{ angle: null }] });
  });

  test('rings, a valve and a proof', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: /Add rings|Edit the rings/ }).click();
    const dialog = page.getByRole('dialog');
    const before = (await draft()).rings.length;
    await dialog.getByRole('button', { name: 'Add a ring' }).click();
    await field('Code').last().fill('oil');
    await field('Name').last().fill('Oil ring');
    await field('Gap at').last().fill('400');
    await dialog.getByRole('button', { name: 'Add a zone' }).click();
    await field('From').last().fill('80');
    await field('Clockwise to').last().fill('100');
    await field('Why').last().fill('over the pin');
    await keep();
    await dialog.getByText('400 deg must be from 0° to below 360°').waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await field('Gap at').last().fill('240');
    await keep();
    await kept();
    expect((await draft()).rings[before]).toEqual({
      code: 'oil',
      name: 'Oil ring',
      angle: { value: '240', unit: 'deg' },
      pin: null,
      mark: '',
    });
    await page.getByRole('button', { name: 'Edit the rings' }).click();
    await field('Gap at').last().fill('');
    await field('What it is').last().selectOption('rail');
    await dialog.getByText('by the rule of thumb').last().waitFor();
    await field('Mark on its face').last().fill('OIL');
    await field('The mark faces').last().selectOption('skirt');
    await keep();
    await kept();
    expect((await draft()).rings[before]).toMatchObject({ angle: null, part: 'rail', mark: 'OIL', faces: 'skirt' });

    await page.getByRole('button', { name: 'Add a valve' }).click();
    await field('Code').fill('exhaust');
    await field('Name').fill('Exhaust');
    await field('Side').selectOption('exhaust');
    await page.getByLabel('Its lash is the dimension').selectOption('clearance');
    await field('Wanted lash').fill('0,20');
    await keep();
    await dialog.getByText('Only shims of the right diameter count: give it.').waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await page.getByLabel('Adjuster').selectOption('screw');
    await field('Pitch of the screw').fill('0.75');
    await keep();
    await kept();
    expect((await draft()).valves.at(-1)).toMatchObject({
      side: 'exhaust',
      wanted: { value: '0.20', unit: 'mm' },
      shimSizes: null,
      screwPitch: { value: '0.75', unit: 'mm' },
    });

    await page.getByRole('button', { name: 'Add a proof' }).click();
    await field('Code').fill('turning');
    await field('Name').fill('Turns by hand');
    await field('How it is done').fill('Two turns of the crank, spark plug out.');
    await field('Caution').fill('Keep fingers out of the drive.');
    await keep();
    await kept();
    expect((await draft()).proofs.at(-1)).toMatchObject({ code: 'turning', dimension: null });
  });

  test('all of it is in what publishing says it changes, and is read by everybody', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: 'Publish', exact: true }).click();
    await page.getByRole('dialog').getByRole('cell', { name: 'Case bolts' }).first().waitFor();
    await page.getByRole('button', { name: 'Publish for good' }).click();
    await page.getByText('No engine was taken in on it yet.').waitFor();
    await page.getByRole('heading', { name: 'Case bolts' }).waitFor();
    expect(await page.getByRole('button', { name: /Add|Edit|one up/ }).count()).toBe(0);
    expect(lead.complaints.filter((text) => !text.includes('422'))).toEqual([]);
  });
});
