import { Failed } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';

interface NotYetReadProps {
  readonly query: {
    readonly isPending: boolean;
    readonly isError: boolean;
    readonly data: unknown;
    readonly error: Error | null;
    readonly refetch: () => Promise<unknown>;
  };
  readonly label: string;
  /** How many lines will stand there, about. */
  readonly lines: number;
}

/** What a desk shows while there is nothing to show yet: that it reads, or why it could not. */
export function NotYetRead({ query, label, lines }: NotYetReadProps) {
  if (query.isPending) return <Skeleton label={label} lines={lines} />;
  if (!query.isError || query.data !== undefined) return null;
  return <Failed error={query.error} again={() => void query.refetch()} />;
}
