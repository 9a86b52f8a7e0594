import type { ReactNode } from 'react';

/** A table that is wider than a phone scrolls by itself, by keyboard too. */
export function Scrolled({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard
    <section className="scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
