import type { ReactNode } from 'react';
import { Button } from './button.tsx';

interface MorePagesProps {
  readonly of: {
    readonly hasNextPage: boolean;
    readonly isFetchingNextPage: boolean;
    readonly fetchNextPage: () => Promise<unknown>;
  };
  readonly children: ReactNode;
  /** What it says while the next page is being read. */
  readonly coming?: ReactNode;
}

/** Below a list that is read page by page: reads the next one; nothing where all of it is there. */
export function MorePages({ of, children, coming = children }: MorePagesProps) {
  if (!of.hasNextPage) return null;
  return (
    <Button disabled={of.isFetchingNextPage} onClick={() => void of.fetchNextPage()}>
      {of.isFetchingNextPage ? coming : children}
    </Button>
  );
}
