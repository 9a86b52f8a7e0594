import type { ReactNode } from 'react';
import { Button } from '../kit/button.tsx';
import { Skeleton } from '../kit/skeleton.tsx';
import { Failed } from './view-states.tsx';

interface PaperPageProps<Data> {
  readonly words: { readonly title: string; readonly print: string; readonly reading: string };
  /** The way back to where it belongs. */
  readonly back: ReactNode;
  readonly query: {
    readonly data: Data | undefined;
    readonly error: Error | null;
    readonly refetch: () => Promise<unknown>;
  };
  /** Whether something else it needs is still being read. */
  readonly waits?: boolean;
  readonly children: (data: Data) => ReactNode;
}

/** A paper on screen as it will be printed, below the way back and the act of printing it. */
export function PaperPage<Data>({ words, back, query, waits = false, children }: PaperPageProps<Data>) {
  const { data, error, refetch } = query;
  return (
    <main className="sheet-page">
      <nav className="sheet-acts no-print" aria-label={words.title}>
        {back}
        <Button kind="main" disabled={data === undefined} onClick={() => window.print()}>
          {words.print}
        </Button>
      </nav>
      {data === undefined && error !== null ? (
        <Failed error={error} again={() => void refetch()} />
      ) : data === undefined || waits ? (
        <Skeleton label={words.reading} lines={12} />
      ) : (
        children(data)
      )}
    </main>
  );
}
