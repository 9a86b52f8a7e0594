import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect } from 'react';
import type { BenchKind } from './panes/kinds.ts';

/**
 * Lets the address carry what was keyed, so that it can be passed on; it follows a moment after the last key. Whoever is
 * already on the way to another page goes on there: the address would call them back.
 */
export function useAddress(kind: BenchKind, search: Readonly<Record<string, string>>): void {
  const navigate = useNavigate();
  const router = useRouter();
  useEffect(() => {
    const timer = setTimeout(() => {
      if (router.state.status === 'pending') return;
      void navigate({
        to: '/loose-bench/$calculation',
        params: { calculation: kind },
        search: search as never,
        replace: true,
        resetScroll: false,
      });
    }, 300);
    return () => clearTimeout(timer);
  }, [navigate, router, kind, search]);
}
