import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { violationsOn } from './axe.ts';

/** Nothing cut off, nothing for axe, by day and by night, on a phone, a desk and a wall, each so high. */
export async function expectGoodLooks(page: Page, height: number): Promise<void> {
  for (const [width, colorScheme] of [
    [390, 'light'],
    [1280, 'dark'],
    [2560, 'light'],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme });
    const at = `${new URL(page.url()).pathname} at ${width}`;
    expect(await page.evaluate(() => document.documentElement.scrollWidth), at).toBeLessThanOrEqual(width);
    expect(await violationsOn(page), at).toEqual([]);
  }
}
