type Props = {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly active: boolean;
  /** What the box belongs to, lettered right of it. */
  readonly note?: string;
};

/** A reading beside its place; the one being asked for is the filled box. */
export function ValueBox({ x, y, text, active, note }: Props) {
  return (
    <g>
      <rect x={x} y={y} width={112} height={30} className={active ? 'hotball' : 'n f-raised'} />
      <text x={x + 56} y={y + 21} textAnchor="middle" className={active ? 'tn b big onhot' : 'tn b big'}>
        {text}
      </text>
      {note === undefined ? null : (
        <text x={x + 120} y={y + 20} className="tx2 side">
          {note}
        </text>
      )}
    </g>
  );
}
