import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { calculationExamples } from '#contracts/build-arithmetic-examples.ts';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { inHand } from '../support/in-hand.ts';
import { openShop, type Shop } from '../support/shop.ts';

/** Where an act asks for nothing but a reason, it is one dialog: nothing goes before a reason is given. */

let shop: Shop;
let dashboard: Dashboard;
let lead: AtTerminal;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
  lead = await dashboard.at('lead');
});
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

/** Fills the dialog that is open and goes; before the reason is there it can't. */
async function because(page: Page, asked: { title: RegExp; label: string; go: string; reason: string }) {
  const dialog = page.getByRole('dialog', { name: asked.title });
  const go = dialog.getByRole('button', { name: asked.go, exact: true });
  await go.waitFor();
  expect(await go.isDisabled()).toBe(true);
  expect(await violationsOn(page)).toEqual([]);
  await dialog.getByLabel(asked.label).fill(asked.reason);
  await go.click();
  await dialog.waitFor({ state: 'detached' });
}

test('an obligation is discharged without a finding, and a figure that was reckoned wrong is struck', async () => {
  const { jobId, engineId } = await inHand(shop);
  await shop.as.lead.post(`/api/jobs/${jobId}/obligations`, { words: 'Stud pulled out of the case', inside: false });
  const figure = { kind: 'port-timing', given: calculationExamples['port-timing'], note: 'As measured' };
  expect((await shop.as.technician.post(`/api/jobs/${jobId}/worked-figures`, figure)).status).toBe(201);
  const { page } = lead;
  await page.goto(`/engines/${engineId}`);
  await page.getByRole('button', { name: 'Discharge', exact: true }).click();
  await because(page, {
    ...{ title: /^Discharge it without a finding$/, label: 'Reason', go: 'Discharge' },
    reason: 'The insert holds; pulled at twice its load',
  });
  await page.getByText(/discharged by Maren Tolk/).waitFor();
  await page.getByText('The insert holds; pulled at twice its load').first().waitFor();
  // The lead looks on; whoever works at the bench strikes.
  const bench = await dashboard.at('technician', { width: 390, height: 844 });
  await bench.page.goto(`/engines/${engineId}`);
  await bench.page.getByRole('button', { name: /^Strike: / }).click();
  await because(bench.page, {
    ...{ title: /^Strike: /, label: 'Why it is struck', go: 'Strike' },
    reason: 'From the gasket, not from the edge',
  });
  await bench.page.getByText(/^Struck by Nadia Quill, .*: From the gasket, not from the edge$/).waitFor();
  expect([...lead.complaints, ...bench.complaints]).toEqual([]);
  await bench.context.close();
});

test('a badge is taken back, and opens nothing any more', async () => {
  await shop.as.lead.post('/api/badges', { personId: shop.people.colleague });
  const { page } = lead;
  await page.goto('/labels#badges');
  await page.getByRole('button', { name: 'Take it back: Oskar Pell' }).click();
  await because(page, {
    ...{ title: /^Take back badge \d+ of Oskar Pell$/, label: 'Reason', go: 'Take it back' },
    reason: 'Lost on the road',
  });
  await page.getByRole('button', { name: 'Issue a badge: Oskar Pell' }).waitFor();
  expect(await shop.sql`select revoked_reason as reason from badge`).toEqual([{ reason: 'Lost on the road' }]);
  expect(lead.complaints).toEqual([]);
});
