import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** What axe finds wrong with a page by WCAG 2.2 A and AA: each rule, and the first element it is broken by. */
export async function violationsOn(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
}
