import { useEffect, useRef } from 'react';

/** What a key of the keyboard, or of a gauge that types, means here; null: it is not ours. */
export type KeyPress =
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'erase' }
  | { readonly type: 'clear' }
  | { readonly type: 'enter' };

const typed = /^[0-9.,+\-/]$/;

export function keyPressOf(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): KeyPress | null {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  if (typed.test(event.key)) return { type: 'text', text: event.key };
  switch (event.key) {
    case ' ':
      return { type: 'text', text: ' ' };
    case 'Backspace':
      return { type: 'erase' };
    case 'Escape':
      return { type: 'clear' };
    case 'Enter':
      return { type: 'enter' };
    default:
      return null;
  }
}

const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLInputElement ||
  target instanceof HTMLTextAreaElement ||
  target instanceof HTMLSelectElement ||
  (target instanceof HTMLElement && target.isContentEditable);

const isControl = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest('button, a, [role="radio"], [role="button"], summary') !== null;

/** A sheet lies over the view: its keys are its own. */
const isCovered = (): boolean => document.querySelector('[role="dialog"]') !== null;

interface Hearing {
  /** Something is typed already, so Enter and space belong to it and not to the button that has focus. */
  readonly busy: boolean;
  readonly hear: (press: KeyPress) => void;
}

/**
 * Hears what is typed wherever the focus is, so that a gauge that ends its figure with Enter works whatever was tapped
 * last. A focused button keeps its Enter and space while nothing is typed; a field keeps all its keys.
 */
export function useKeys(hearing: Hearing): void {
  const now = useRef(hearing);
  now.current = hearing;
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const { busy, hear } = now.current;
      const press = keyPressOf(event);
      if (press === null || event.defaultPrevented || isField(event.target) || isCovered()) return;
      const belongsToControl = press.type === 'enter' || (press.type === 'text' && press.text === ' ');
      if (!busy && belongsToControl && isControl(event.target)) return;
      event.preventDefault();
      event.stopPropagation();
      hear(press);
    };
    addEventListener('keydown', listen, { capture: true });
    return () => removeEventListener('keydown', listen, { capture: true });
  }, []);
}
