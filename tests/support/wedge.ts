import type { Page } from 'playwright-core';

/** As a reader types it: fast, in capitals, ended by Enter, wherever the focus is. */
export async function wedge(page: Page, code: string, end = '\n'): Promise<void> {
  const keyboard = await page.context().newCDPSession(page);
  // Sent without waiting between them, so that they come at a reader's speed however busy the machine is.
  const sent = [...`${code}${end}`].flatMap((letter) => {
    const key =
      letter === '\n'
        ? { key: 'Enter', code: 'Enter', windowsVirtualKeyCode: 13, text: '\r' }
        : { key: letter, text: letter };
    return [
      keyboard.send('Input.dispatchKeyEvent', { type: 'keyDown', ...key }),
      keyboard.send('Input.dispatchKeyEvent', { type: 'keyUp', key: key.key }),
    ];
  });
  await Promise.all(sent);
  await keyboard.detach();
}
