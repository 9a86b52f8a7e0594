import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { boreOf, insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let serials = 800;
beforeAll(async () => {
  shop = await openShop();
  await insertInstruments(shop.sql, shop.people.lead);
  // A gauge whose scatter nobody has studied: its repeats tell it.
  await shop.sql`update instrument set repeatability = null where code = 'BG-2'`;
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const inTime = { timeout: 20_000 } as const;

const engine = async () => {
  serials += 1;
  return takeIn(shop, { serial: `H355-${serials}` });
};

async function atBench(jobId: string, query: string) {
  const terminal = await dashboard.at('technician');
  const { page } = terminal;
  let writes = 0;
  page.on('request', (request) => {
    if (request.method() === 'POST' && request.url().endsWith(`/jobs/${jobId}/readings`)) writes += 1;
  });
  await page.goto(`/bench/${jobId}/measure?${query}`);
  await page.locator('.measure').waitFor();
  const kept = async () => {
    const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/bench`);
    return body.dimensions.flatMap(({ readings }: { readings: readonly { text: string }[] }) =>
      readings.map(({ text }) => text),
    );
  };
  return { ...terminal, kept, writes: () => writes };
}

describe('figures in a row', () => {
  test('six of them are one write; undo takes back the last of them', async () => {
    const { jobId } = await engine();
    const { page, context, kept, writes } = await atBench(jobId, 'dimension=bore');
    await page.keyboard.type('88.012 88.010 88.011 88.009 88.008 88.007');
    await page.keyboard.press('Enter');
    await page.locator('.done-panel .verdict-panel').waitFor();
    expect(await kept()).toHaveLength(6);
    expect(writes()).toBe(1);
    await page.keyboard.press('Control+z');
    await expect.poll(kept, inTime).toEqual(['88.012', '88.010', '88.011', '88.009', '88.008']);
    await context.close();
  });

  test('with one that is hardly possible the good ones are kept, and that one alone is asked about', async () => {
    const { jobId } = await engine();
    const { page, context, kept } = await atBench(jobId, 'dimension=bore');
    await page.keyboard.type('88.012 88.010 97.011 88.009 88.008 88.007');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /B-across.*97\.011/ }).waitFor();
    await expect.poll(kept, inTime).toEqual(['88.012', '88.010', '88.009', '88.008', '88.007']);
    await context.close();
  });

  test('kept without the network, undone by one, they arrive as one row without it', async () => {
    const { jobId } = await engine();
    const { page, context, kept } = await atBench(jobId, 'dimension=bore');
    await context.setOffline(true);
    await page.keyboard.type('88.012 88.010 88.011');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'At B-along' }).waitFor();
    await page.keyboard.press('Control+z');
    await page.getByRole('heading', { name: 'At B-across' }).waitFor();
    await context.setOffline(false);
    await expect.poll(kept, inTime).toEqual(['88.012', '88.010']);
    await context.close();
  });
});

test('a ring gap that did not grow with the bore is told while it is keyed, and after', async () => {
  const { jobId } = await engine();
  const key = (round: string, dimension: string, readings: readonly object[]) =>
    shop.as.technician.post(`/api/jobs/${jobId}/readings`, { round, dimension, readings });
  await key('as received', 'bore', boreOf(Array(6).fill('88.000')));
  await key('as received', 'ring-gap-top', [
    { position: '1', repeat: 1, instrumentCode: 'FE-1', interval: { go: '0.30', noGo: '0.35' } },
  ]);
  await key('after work', 'bore', boreOf(Array(6).fill('88.030')));
  const { page, context } = await atBench(jobId, 'dimension=ring-gap-top&round=after+work');
  await page.keyboard.type('0.30 0.35');
  const told = page.getByRole('alert').filter({ hasText: 'before and after tells that the bore has grown' });
  await told.waitFor();
  expect(await told.textContent()).toContain('the bore gauge says 0.030 mm. One of them is wrong');
  await page.keyboard.press('Enter');
  await page.locator('.done-panel').waitFor();
  await told.waitFor();
  await context.close();
});

test('three repeats that alone tell the scatter: the band rests on Student’s t, and the budget says how many', async () => {
  const { jobId } = await engine();
  const { page, context, kept } = await atBench(jobId, 'dimension=piston');
  for (const figure of ['87.950', '87.960', '87.955']) {
    await page.keyboard.type(figure);
    await page.keyboard.press('Shift+Enter');
    await expect.poll(() => page.locator('.figure-line output').textContent(), inTime).toBe('');
  }
  await expect.poll(kept, inTime).toHaveLength(3);
  await page.keyboard.press('Escape');
  await page.locator('.done-panel .budget-key').first().waitFor();
  await page.keyboard.press('F9');
  const rows = page.getByRole('dialog').locator('tbody tr');
  await rows.first().waitFor();
  // s = 0.005 of three: u² = 0.005²/3 + 0.001²/12 + 0.001²/3, ν = u⁴ / ((0.005²/3)² / 2) = 2.2.
  const u = Math.sqrt(0.005 ** 2 / 3 + 0.001 ** 2 / 12 + 0.001 ** 2 / 3);
  const scatter = async () => (await rows.allTextContents()).join(' | ');
  await expect.poll(scatter, inTime).toMatch(/scatter of these repeats[^|]* mm2( |$)/);
  const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/bench`);
  const [finding] = body.dimensions.find(({ code }: { code: string }) => code === 'piston').findings;
  expect(Number(finding.standardUncertainty.value)).toBeCloseTo(u, 5);
  expect(finding.degreesOfFreedom).toBeCloseTo(u ** 4 / ((0.005 ** 2 / 3) ** 2 / 2), 1);
  // t₀.₉₅ of 2.2 degrees of freedom lies between that of 3 (2.353) and that of 2 (2.920).
  const factor = Number(finding.guardBand.value) / u;
  expect(factor).toBeGreaterThan(2.35);
  expect(factor).toBeLessThan(2.93);
  await context.close();
});
