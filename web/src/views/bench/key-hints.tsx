import type { ReactNode } from 'react';
import { useMedia } from '../../app/use-media.ts';
import { useWords } from '../../words/words.tsx';
import './key-hints.css';

/** Where a mouse is, a keyboard is; a gloved hand on glass has no use for the names of keys. */
const useKeyboard = (): boolean => useMedia('(hover: hover) and (pointer: fine) and (min-width: 721px)');

/** The key that does what a button does, on the button. */
export function KeyName({ children }: { readonly children: ReactNode }) {
  return useKeyboard() ? (
    <span className="key-name" aria-hidden="true">
      {children}
    </span>
  ) : null;
}

/** What the keyboard can say at the bench. */
export function KeyHints() {
  const { keys } = useWords().measure;
  if (!useKeyboard()) return null;
  return (
    <section aria-label={keys.title} className="key-hints note">
      {keys.all.map(([names, does]) => (
        <span key={does} className="nowrap">
          {names.map((name) => (
            <kbd key={name}>{name}</kbd>
          ))}{' '}
          {does}
        </span>
      ))}
    </section>
  );
}
