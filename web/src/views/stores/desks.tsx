import { Link, useRouterState } from '@tanstack/react-router';
import { useWords } from '../../words/words.tsx';

/** The desks of stores, each with an address of its own: one line of words over the sheet, the present one underlined. */
export function Desks() {
  const { desks } = useWords().stores;
  const path = useRouterState({ select: (state) => state.location.pathname });
  const all = [
    { to: '/stores', label: desks.pick },
    { to: '/stores/order', label: desks.order },
    { to: '/stores/parts', label: desks.parts },
  ] as const;
  const isHere = (to: string) =>
    to === '/stores'
      ? path === to
      : path.startsWith(to) || (to === '/stores/order' && path.startsWith('/stores/orders'));
  return (
    <nav className="desks no-print" aria-label={desks.label}>
      {all.map(({ to, label }) => (
        <Link key={to} to={to} activeOptions={{ exact: true }} aria-current={isHere(to) ? 'page' : undefined}>
          {label}
        </Link>
      ))}
    </nav>
  );
}
