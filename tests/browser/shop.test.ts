import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type DemoShop, openDemoShop, type Terminal } from '../support/terminals.ts';
import { button, goTo, heading, seen } from './walk/at-the-page.ts';

let shop: DemoShop;
let maren: Terminal;

beforeAll(async () => {
  shop = await openDemoShop();
  maren = await shop.tapIn('maren');
});
afterAll(() => shop.close());
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.picture(task.name)));

describe.sequential('the shop as the lead sets it up', () => {
  test('somebody joins, and the terminal offers the name at once', async () => {
    const { page } = maren;
    await goTo(page, 'Shop');
    await heading(page, 'The shop').waitFor();
    await button(page, 'Add somebody').click();
    await page.getByLabel('Name', { exact: true }).fill('Runa Solheim');
    await page.getByLabel('Initials').fill('RS');
    await page.getByLabel('PIN', { exact: true }).fill('1234');
    await button(page, 'Add').click();
    await seen(page.getByRole('dialog'), /Anybody would try that PIN first/);
    await page.getByLabel('PIN', { exact: true }).fill('730591');
    await button(page, 'Add').click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await seen(page.getByRole('region', { name: 'People' }), 'Runa Solheim');
    const other = await (await shop.tapIn('nadia')).context.newPage();
    const choices = await other.request.get('/api/sign-in');
    expect((await choices.json()).people.map(({ name }: { name: string }) => name)).toContain('Runa Solheim');
  });

  test('somebody who holds an engine does not leave, and the page says why', async () => {
    const line = maren.page.getByRole('listitem').filter({ hasText: 'Nadia Quill' });
    await line.getByRole('button', { name: 'Leaves the shop' }).click();
    await seen(line, /^Nadia Quill still holds /);
  });

  test('a bay is put on free cells, drawn while it is set', async () => {
    const { page } = maren;
    await button(page, 'Add a bay').click();
    await page.getByLabel('Name', { exact: true }).fill('Bay 6');
    await page.getByLabel('Row', { exact: true }).fill('1');
    await button(page, 'Add').click();
    await seen(page.getByRole('dialog'), /is there already\. Give the bay cells of its own\./);
    await page.getByLabel('Row', { exact: true }).fill('9');
    await button(page, 'Add').click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await seen(page.getByRole('region', { name: 'Bays' }).getByRole('listitem'), 'Bay 6');
  });

  test('whoever is signed in changes the own PIN, and taps in with it', async () => {
    const bea = await shop.tapIn('bea');
    await button(bea.page, 'Bea Lindqvist: change PIN').click();
    await bea.page.getByLabel('PIN as it is now').fill('9999');
    await bea.page.getByLabel('New PIN').fill('860421');
    await button(bea.page, 'Change it').click();
    await seen(bea.page.getByRole('dialog'), 'That is not your PIN as it is now.');
    await bea.page.getByLabel('PIN as it is now').fill('4606');
    await button(bea.page, 'Change it').click();
    await bea.page.getByRole('dialog').waitFor({ state: 'detached' });
    await button(bea.page, 'Tap out').click();
    // Until the page is left, her name stands on another button.
    await bea.page.getByLabel('This terminal stands at').waitFor();
    await button(bea.page, /Bea Lindqvist/).click();
    await bea.page.locator('#pin').pressSequentially('860421');
    await bea.page.keyboard.press('Enter');
    await button(bea.page, 'Tap out').waitFor();
  });

  test('a terminal left alone warns, stays for a touch, and taps out', async () => {
    const { page } = await shop.tapIn('nadia');
    await button(page, 'Tap out').click();
    await page.clock.install();
    await page.getByLabel('This terminal stands at').selectOption({ label: 'Terminal bay 1' });
    await button(page, /Nadia Quill/).click();
    await page.locator('#pin').pressSequentially('4404');
    await page.keyboard.press('Enter');
    await button(page, 'Tap out').waitFor();
    await page.clock.runFor(14 * 60_000 + 40_000);
    await seen(page.getByRole('alert'), /^Nobody has touched this for a while\. Tapping out in \d+ s\.$/);
    await page.mouse.move(200, 200);
    await page.getByText(/^Nobody has touched/).waitFor({ state: 'detached' });
    await page.clock.runFor(14 * 60_000);
    expect(await button(page, 'Tap out').isVisible()).toBe(true);
    await page.clock.runFor(70_000);
    await seen(page, 'Who is at this terminal?');
  });

  test('axe finds nothing on it, and a phone needs no sideways scrolling', async () => {
    const { page } = maren;
    const complaints = shop.complaints.filter((text) => !/status of 4\d\d/.test(text));
    expect(complaints).toEqual([]);
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  });
});
