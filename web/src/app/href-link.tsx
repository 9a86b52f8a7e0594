import { useRouter } from '@tanstack/react-router';
import type { ReactNode } from 'react';

/** A link to an address that the server names, opened without loading the page anew. */
export function HrefLink({ href, children }: { readonly href: string; readonly children: ReactNode }) {
  const router = useRouter();
  return (
    <a
      href={href}
      onClick={(event) => {
        if (event.ctrlKey || event.metaKey || event.shiftKey) return;
        event.preventDefault();
        router.history.push(href);
      }}
    >
      {children}
    </a>
  );
}
