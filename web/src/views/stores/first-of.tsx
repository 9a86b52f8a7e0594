import type { ReactNode } from 'react';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface FirstOfProps {
  readonly shown: number;
  readonly of: number;
  /** Shows more of them. */
  readonly onMore?: () => void;
  /** How else the rest is seen. */
  readonly children?: ReactNode;
}

/** Says where a list stops short of all there is, and how to see the rest; nothing where it does not. */
export function FirstOf({ shown, of, onMore, children }: FirstOfProps) {
  const { firstOf, showMore } = useWords().stores;
  const { number } = useFormat();
  if (shown >= of) return null;
  return (
    <div className="first-of">
      <p className="note">
        <b>{firstOf(number(shown), number(of))}</b> {children}
      </p>
      {onMore === undefined ? null : <Button onClick={onMore}>{showMore}</Button>}
    </div>
  );
}
