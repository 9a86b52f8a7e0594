export type SkeletonProps = {
  /** Said to those who can't see it: what is being read. */
  readonly label: string;
  readonly lines?: number;
};

const widths = ['w-2', 'w-3', 'w-1'] as const;

/** Stands where the content will, at about its size, and doesn't move. */
export function Skeleton({ label, lines = 3 }: SkeletonProps) {
  return (
    <div className="skeleton" role="status">
      <span className="visually-hidden">{label}</span>
      {Array.from({ length: lines }, (_, line) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the lines have nothing but their place
        <i key={line} className={widths[line % widths.length]} />
      ))}
    </div>
  );
}
