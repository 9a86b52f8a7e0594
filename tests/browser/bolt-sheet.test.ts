import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

test.each([
  { width: 390, height: 844 },
  { width: 1280, height: 900 },
])('a bolt pattern is drawn by hand at $width px, by taps and by keys, and its order worked out', async (size) => {
  const { page, complaints } = await dashboard.at('technician', size);
  await page.goto('/loose-bench/fastener-set');
  await page.getByLabel('Where they sit').selectOption('drawn here');
  const paper = page.getByRole('button', { name: /^Squared sheet/ });
  const tap = async (across: number, down: number) => {
    const box = await paper.boundingBox();
    if (box === null) throw new Error('the sheet is not there');
    await paper.click({ position: { x: box.width * across, y: box.height * down } });
  };
  for (const [across, down] of [
    [0.3, 0.3],
    [0.7, 0.3],
    [0.7, 0.7],
    [0.3, 0.7],
  ] as const)
    await tap(across, down);
  const coordinates = page.getByLabel('Coordinates');
  expect(await coordinates.inputValue()).toBe('-40 40\n40 40\n40 -40\n-40 -40');
  await page.getByText('1 3 2 4').waitFor();
  // A tap on the second takes it out; the keys put one at the next crossing.
  await tap(0.7, 0.3);
  expect(await coordinates.inputValue()).toBe('-40 40\n40 -40\n-40 -40');
  for (const key of ['ArrowRight', 'ArrowDown', 'Enter']) await paper.press(key);
  expect(await coordinates.inputValue()).toBe('-40 40\n40 -40\n-40 -40\n45 35');
  expect(await violationsOn(page, 'main')).toEqual([]);
  expect(complaints).toEqual([]);
  await page.context().close();
});
