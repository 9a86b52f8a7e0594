import type { Page } from 'playwright-core';

/** As a reader types it: fast, in capitals, ended by Enter, wherever the focus is. */
export async function wedge(page: Page, code: string, end = '\n'): Promise<void> {
  const keyboard = await page.context().newCDPSession(page);
  const startedAt = Date.now() / 1000;
  // Stamped with a reader's speed and sent without waiting between them, however busy the machine is.
  const sent = [...`${code}${end}`].flatMap((letter, index) => {
    const timestamp = startedAt + index * 0.008;
    const key =
      letter === '\n'
        ? { key: 'Enter', code: 'Enter', windowsVirtualKeyCode: 13, text: '\r' }
        : { key: letter, text: letter };
    return [
      keyboard.send('Input.dispatchKeyEvent', { type: 'keyDown', timestamp, ...key }),
      keyboard.send('Input.dispatchKeyEvent', { type: 'keyUp', timestamp, key: key.key }),
    ];
  });
  await Promise.all(sent);
  await keyboard.detach();
}
