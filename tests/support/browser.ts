import { type Browser, chromium, type LaunchOptions } from 'playwright-core';

/** Root and containers know no sandbox of Chromium's; a small /dev/shm makes it crash. */
const args = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--font-render-hinting=none',
  // A camera that shows a moving test picture, and that nobody has to allow.
  '--use-fake-device-for-media-stream',
  '--use-fake-ui-for-media-stream',
];

/**
 * Launches a real browser: CROSSHATCH_TEST_BROWSER names one, on Linux x64 one comes with the development dependencies,
 * elsewhere an installed Chrome or Edge is used.
 */
export async function launchBrowser(options: LaunchOptions = {}): Promise<Browser> {
  const executablePath = process.env.CROSSHATCH_TEST_BROWSER || (await packagedChromium());
  if (executablePath !== undefined) return chromium.launch({ args, executablePath, ...options });
  try {
    return await chromium.launch({ channel: 'chrome', ...options });
  } catch {
    return chromium.launch({ channel: 'msedge', ...options });
  }
}

/** The browser that comes with the development dependencies, unpacked; undefined where there is none for this machine. */
export async function packagedChromium(): Promise<string | undefined> {
  if (process.platform !== 'linux' || process.arch !== 'x64') return undefined;
  const { default: packaged } = await import('@sparticuz/chromium');
  return packaged.executablePath();
}
