import type { ReactNode } from 'react';

export type DrawingProps = {
  readonly viewBox: readonly [x: number, y: number, width: number, height: number];
  readonly width: number;
  readonly height: number;
  /** The accessible name. Without one the drawing is decoration beside words that say the same. */
  readonly label?: string | undefined;
  /** A drawing with controls in it (bolts to tap) is a group, so that they stay reachable. */
  readonly interactive?: boolean;
  readonly className?: string;
  readonly children: ReactNode;
};

/** The sheet every drawing stands on. Nothing is filled unless it says so, so hatches need no style attribute. */
export function Drawing({ viewBox, width, height, label, interactive = false, className, children }: DrawingProps) {
  return (
    <svg
      role={interactive ? 'group' : 'img'}
      aria-label={label}
      aria-hidden={label === undefined ? true : undefined}
      className={className === undefined ? 'dwg' : `dwg ${className}`}
      viewBox={viewBox.join(' ')}
      width={width}
      height={height}
      fill="none"
    >
      {children}
    </svg>
  );
}

/** The same parts on both sides of the centre line. */
export function Mirrored({ children }: { readonly children: ReactNode }) {
  return (
    <>
      {children}
      <g transform="scale(-1 1)">{children}</g>
    </>
  );
}
