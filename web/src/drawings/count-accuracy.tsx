interface MonthShown {
  readonly month: string;
  readonly lines: number;
  readonly right: number;
  readonly within: number;
}

interface DrawingProps {
  readonly label: string;
  readonly months: readonly MonthShown[];
}

const [width, height, left, foot] = [36, 120, 34, 20];

/** A column a month, to 100 %: filled what was right, hatched above it what was within tolerance, open the rest. */
export function CountAccuracyDrawing({ label, months }: DrawingProps) {
  const wide = left + months.length * width + 6;
  return (
    <svg
      className="count-accuracy"
      viewBox={`0 0 ${wide} ${height + foot + 8}`}
      width={wide}
      role="img"
      aria-label={label}
    >
      <defs>
        <pattern id="within-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="6" stroke="var(--ink)" strokeWidth="2" />
        </pattern>
      </defs>
      {[0, 50, 100].map((percent) => (
        <g key={percent}>
          <line
            x1={left - 4}
            x2={wide}
            y1={yOf(percent / 100)}
            y2={yOf(percent / 100)}
            stroke="var(--line)"
            strokeWidth="1"
          />
          <text x={left - 6} y={yOf(percent / 100) + 4} textAnchor="end">
            {percent}
          </text>
        </g>
      ))}
      {months.map((month, at) => (
        <Column key={month.month} of={month} x={left + at * width + 4} />
      ))}
    </svg>
  );
}

const yOf = (share: number): number => 4 + height * (1 - share);

function Column({ of, x }: { readonly of: MonthShown; readonly x: number }) {
  const [right, within] = [of.right / of.lines, of.within / of.lines];
  const wide = width - 8;
  return (
    <g>
      <rect x={x} y={yOf(right)} width={wide} height={height * right} fill="var(--ink)" />
      <rect x={x} y={yOf(right + within)} width={wide} height={height * within} fill="url(#within-hatch)" />
      <rect x={x} y={yOf(1)} width={wide} height={height} fill="none" stroke="var(--ink)" strokeWidth="1" />
      <text x={x + wide / 2} y={height + foot} textAnchor="middle">
        {of.month.slice(5)}
      </text>
    </g>
  );
}
