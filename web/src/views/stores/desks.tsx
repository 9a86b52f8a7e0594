import { Link, useRouterState } from '@tanstack/react-router';
import { useEffect, useRef } from 'react';
import { useWords } from '../../words/words.tsx';

/** The desks of stores, each with an address of its own: one line of words over the sheet, the present one underlined. */
export function Desks() {
  const { desks } = useWords().stores;
  const { walk, receive, short, bins, cores } = useWords().storesDesks;
  const path = useRouterState({ select: (state) => state.location.pathname });
  const all = [
    { to: '/stores', label: desks.pick },
    { to: '/stores/pick', label: walk.title },
    { to: '/stores/receive', label: receive.title },
    { to: '/stores/short', label: short.title },
    { to: '/stores/order', label: desks.order },
    { to: '/stores/count', label: desks.count },
    { to: '/stores/parts', label: desks.parts },
    { to: '/stores/bins', label: bins.title },
    { to: '/stores/cores', label: cores.title },
  ] as const;
  const isHere = (to: string) =>
    to === '/stores'
      ? path === to
      : path.startsWith(to) || (to === '/stores/order' && path.startsWith('/stores/orders'));
  const row = useRef<HTMLElement>(null);
  useEffect(() => {
    // On a phone the row scrolls sideways: the present one comes into sight.
    const here = row.current?.querySelector<HTMLElement>('[aria-current="page"]');
    if (here !== null && here !== undefined) row.current?.scrollTo({ left: here.offsetLeft - 24 });
  }, []);
  return (
    <nav ref={row} className="desks no-print" aria-label={desks.label}>
      {all.map(({ to, label }) => (
        <Link key={to} to={to} activeOptions={{ exact: true }} aria-current={isHere(to) ? 'page' : undefined}>
          {label}
        </Link>
      ))}
    </nav>
  );
}
