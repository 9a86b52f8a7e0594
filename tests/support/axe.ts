import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/**
 * What axe finds wrong with a page, or with what a selector names of it: each rule, WCAG 2.2 A and AA and good practice
 * alike, and each element it is broken by. In one go within the page (legacy mode): this dashboard has no frames, and it
 * takes half the time.
 */
export async function violationsOn(page: Page, within?: string): Promise<readonly string[]> {
  const axe = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
  const { violations } = await (within === undefined ? axe : axe.include(within)).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}
