import { useEffect, useState } from 'react';
import { useWords } from '../words/words.tsx';
import { signOut, useSession } from './session.tsx';

const WARNING_MS = 30_000;
const TOUCHES = ['pointerdown', 'pointermove', 'keydown', 'wheel', 'touchstart'] as const;
/** Shared by all tabs of the browser, since they share the session: work in one keeps the others. */
const TOUCHED_KEY = 'crosshatch-touched';

const lastTouch = (): number => Number(localStorage.getItem(TOUCHED_KEY) ?? 0);

/** Seconds until somebody is tapped out; null: not soon, or never here. */
function useSecondsLeft(minutes: number | null): number | null {
  const [left, setLeft] = useState<number | null>(null);
  useEffect(() => {
    if (minutes === null) return;
    const limit = minutes * 60_000;
    const touch = () => {
      if (Date.now() - lastTouch() > 500) localStorage.setItem(TOUCHED_KEY, String(Date.now()));
      setLeft(null);
    };
    touch();
    const timer = setInterval(() => {
      const remaining = lastTouch() + limit - Date.now();
      if (remaining <= 0) {
        clearInterval(timer);
        void signOut();
      } else setLeft(remaining <= Math.min(WARNING_MS, limit / 2) ? Math.ceil(remaining / 1000) : null);
    }, 1000);
    for (const kind of TOUCHES) addEventListener(kind, touch, { passive: true });
    return () => {
      clearInterval(timer);
      for (const kind of TOUCHES) removeEventListener(kind, touch);
    };
  }, [minutes]);
  return left;
}

/** A shared terminal taps out whoever walked away from it, and says so first. */
export function IdleGuard() {
  const words = useWords().shop.idle;
  const left = useSecondsLeft(useSession().terminal?.idleMinutes ?? null);
  if (left === null) return null;
  return (
    <div className="idle" role="alert">
      <b>{words.soon(left)}</b>
      <span>{words.stay}</span>
    </div>
  );
}
