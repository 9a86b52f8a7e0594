import { useEffect, useRef } from 'react';

/** What a key of the keyboard, or of a gauge that types, means here; null: it is not ours. */
export type KeyPress =
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'erase' }
  | { readonly type: 'clear' }
  | { readonly type: 'enter' };

const typed = /^[0-9.,+\-/"]$/;

type Pressed = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'> & Partial<Pick<KeyboardEvent, 'shiftKey'>>;

export function keyPressOf(event: Pressed): KeyPress | null {
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
      return event.shiftKey === true ? null : { type: 'enter' };
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

/** What is typed is the entry's: a control that was tapped before lets go, and its Enter with it. */
export function letGo(): void {
  if (document.activeElement instanceof HTMLElement && isControl(document.activeElement)) document.activeElement.blur();
}

/**
 * Hears what is typed wherever the focus is, so that a gauge that ends its figure with Enter works whatever was tapped
 * last: a listener lets go of it as text comes. A control that was gone to after that keeps its Enter and space; a field
 * keeps all its keys.
 */
export function useKeys(hear: (press: KeyPress) => void): void {
  const now = useRef(hear);
  now.current = hear;
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const press = keyPressOf(event);
      if (press === null || event.defaultPrevented || isField(event.target) || isCovered()) return;
      const belongsToControl = press.type === 'enter' || (press.type === 'text' && press.text === ' ');
      if (belongsToControl && isControl(event.target)) return;
      event.preventDefault();
      event.stopPropagation();
      now.current(press);
    };
    addEventListener('keydown', listen, { capture: true });
    return () => removeEventListener('keydown', listen, { capture: true });
  }, []);
}

/** What else a keyboard can say at the bench, by keys that no figure is written with. */
export type Command =
  | 'again'
  | 'undo'
  | 'list'
  | 'gauge'
  | 'temperature'
  | 'budget'
  | 'place before'
  | 'place after'
  | 'dimension before'
  | 'dimension after';

const commands: Readonly<Record<string, Command>> = {
  F2: 'list',
  F4: 'gauge',
  F8: 'temperature',
  F9: 'budget',
  ArrowUp: 'place before',
  ArrowDown: 'place after',
  PageUp: 'dimension before',
  PageDown: 'dimension after',
};

export function commandOf(event: Pressed): Command | null {
  const { key, altKey, ctrlKey, metaKey, shiftKey = false } = event;
  if (altKey) return null;
  if (ctrlKey || metaKey) return key.toLowerCase() === 'z' && !shiftKey ? 'undo' : null;
  if (shiftKey) return key === 'Enter' ? 'again' : null;
  return commands[key] ?? null;
}

/** Does what a command says, wherever the focus is but in a field or under a sheet; one that isn't named is left alone. */
export function useCommands(acts: Readonly<Partial<Record<Command, () => void>>>): void {
  const now = useRef(acts);
  now.current = acts;
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const command = commandOf(event);
      if (command === null || event.defaultPrevented || isField(event.target) || isCovered()) return;
      const act = now.current[command];
      if (act === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      act();
    };
    addEventListener('keydown', listen, { capture: true });
    return () => removeEventListener('keydown', listen, { capture: true });
  }, []);
}
