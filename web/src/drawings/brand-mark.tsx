import { Drawing } from './drawing.tsx';

/** The cross-hatched bore between its walls. Decoration: the name stands beside it. */
export function BrandMark({ size = 24 }: { readonly size?: number }) {
  return (
    <Drawing viewBox={[0, 0, 24, 24]} width={size} height={size}>
      <path className="w" d="M5 2V22M19 2V22" />
      <path className="n" d="M5 6L19 14M5 12L19 20M5 18L12 22M19 6L5 14M19 12L5 20M19 18L12 22M12 2L19 6M12 2L5 6" />
    </Drawing>
  );
}
