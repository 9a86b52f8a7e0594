import type { KeyboardEvent } from 'react';

/** What makes a group of an SVG a button: a name, a place in the tab order, Enter and Space. */
export function asButton(name: string, press: () => void) {
  return {
    role: 'button',
    tabIndex: 0,
    'aria-label': name,
    onClick: press,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key !== 'Enter' && event.key !== ' ') return;
      event.preventDefault();
      press();
    },
  } as const;
}
