import { useEffect, useState } from 'react';

/**
 * Keeps the keyboard inside an element: when what had the focus goes away or is put out of use, a browser lets it fall
 * to the page, where Escape and Tab reach nothing of a dialog any more. Give the answer as the element's ref.
 */
export function useKeptFocus(): (element: HTMLElement | null) => void {
  const [kept, keep] = useState<HTMLElement | null>(null);
  useEffect(() => {
    if (kept === null) return undefined;
    let frame = 0;
    const look = (): void => {
      cancelAnimationFrame(frame);
      // The browser moves the focus when it next draws.
      frame = requestAnimationFrame(() => {
        if (document.activeElement === document.body) kept.focus();
      });
    };
    const observer = new MutationObserver(look);
    observer.observe(kept, { childList: true, subtree: true, attributeFilter: ['disabled', 'hidden'] });
    return () => {
      cancelAnimationFrame(frame);
      observer.disconnect();
    };
  }, [kept]);
  return keep;
}
