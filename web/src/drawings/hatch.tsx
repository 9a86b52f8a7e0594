import { at } from './coordinates.ts';

export type HatchProps = {
  readonly id: string;
  readonly pitch: number;
  readonly angle?: number;
  readonly line: number;
  /** Crossed lines: past the limit. */
  readonly crossed?: boolean;
  /** Fills the ground between the lines, where the hatch must hide what lies beneath. */
  readonly opaque?: boolean;
};

/**
 * ISO 128 section hatching as a pattern, pitch and line in the drawing's own units. The line lies on the tile's edge and
 * half of it is cut off: Chromium draws that crisply, where a line inside a small tile is smeared over two pixels.
 */
export function Hatch({ id, pitch, angle = 45, line, crossed = false, opaque = false }: HatchProps) {
  const side = at(pitch);
  return (
    <pattern id={id} width={side} height={side} patternUnits="userSpaceOnUse" patternTransform={`rotate(${angle})`}>
      {opaque ? <rect width={side} height={side} className="f-paper" /> : null}
      <path d={crossed ? `M0 0V${side}M0 0H${side}` : `M0 0V${side}`} className="hl" strokeWidth={at(line * 2)} />
    </pattern>
  );
}

export const fillWith = (id: string): string => `url(#${id})`;
