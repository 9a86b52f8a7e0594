import { at } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { adjustmentText, type LashValve } from './lash-facts.ts';
import { type LashLettering, LashValveMark } from './lash-valve-mark.tsx';
import { type FormatNumber, plainNumber } from './number-format.ts';
import { type DrawingWords, englishWords } from './words.ts';

export type LashBoardProps = {
  readonly valves: readonly LashValve[];
  readonly lashDecimals?: number;
  readonly shimDecimals?: number;
  readonly format?: FormatNumber;
  readonly width?: number;
  /** For phones: one valve under the other; the words then tell what the arrows would. */
  readonly stacked?: boolean;
  readonly words?: Pick<DrawingWords, 'lash'>;
};

type Placed = { readonly valve: LashValve; readonly x: number; readonly y: number };

const COLUMN = 340;
const ROW = 220;

/** From the circle it leaves to the one it reaches, bowed to one side, so that an exchange is two arcs. */
export function moveArc(from: { x: number; y: number }, to: { x: number; y: number }) {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const aside = { x: -along.y, y: along.x };
  const off = (centre: { x: number; y: number }, forward: number, sideways: number) => ({
    x: centre.x + along.x * forward + aside.x * sideways,
    y: centre.y + along.y * forward + aside.y * sideways,
  });
  const [start, end] = [off(from, 36, 42), off(to, -38, 44)];
  const [bendOut, bendIn] = [off(start, 60, 38), off(end, -60, 36)];
  const heading = Math.atan2(end.y - bendIn.y, end.x - bendIn.x);
  const point = ({ x, y }: { x: number; y: number }) => `${at(x)} ${at(y)}`;
  const barb = (turn: number) =>
    point({ x: end.x - 14 * Math.cos(heading + turn), y: end.y - 14 * Math.sin(heading + turn) });
  return {
    line: `M${point(start)}C${point(bendOut)} ${point(bendIn)} ${point(end)}`,
    head: `M${point(end)}L${barb(0.42)}L${barb(-0.42)}Z`,
  };
}

function Moves({ placed }: { readonly placed: readonly Placed[] }) {
  return placed.map(({ valve, x, y }) => {
    const { adjustment } = valve;
    if (adjustment.kind !== 'shim' || adjustment.source.kind !== 'moves') return null;
    const giver = adjustment.source.valve;
    const from = placed.find((other) => other.valve.id === giver);
    if (from === undefined) return null;
    const arc = moveArc(from, { x, y });
    return (
      <g key={valve.id} data-move={`${giver} ${valve.id}`}>
        <path d={arc.line} className="move" />
        <path d={arc.head} className="f-ink" />
      </g>
    );
  });
}

type HeadPlanProps = { readonly width: number; readonly middle: number; readonly words: DrawingWords['lash'] };

function HeadPlan({ width, middle, words }: HeadPlanProps) {
  return (
    <g data-layer="plan">
      <path d={`M14 14H${width - 14}V${2 * ROW - 14}H14Z`} className="n faint" />
      <path d={`M${middle} 4V${2 * ROW - 4}M4 ${ROW}H${width - 4}`} className="cl" />
      <circle cx={middle} cy={ROW} r={13} className="w f-paper" />
      <circle cx={middle} cy={ROW} r={4} className="n" />
      <text x={middle} y={18} textAnchor="middle" className="tx2 bgp">
        {words.exhaust}
      </text>
      <text x={middle} y={2 * ROW - 10} textAnchor="middle" className="tx2 bgp">
        {words.intake}
      </text>
    </g>
  );
}

/** The valves as seen from above: lash found, shim in, shim chosen, where it comes from. */
export function LashBoard(props: LashBoardProps) {
  const {
    valves,
    lashDecimals = 2,
    shimDecimals = 3,
    format = plainNumber,
    stacked = false,
    words = englishWords,
  } = props;
  const lettering: LashLettering = {
    lash: (value) => format(value, lashDecimals),
    shim: (value) => format(value, shimDecimals),
    size: (value) => format(value, 2),
    words: words.lash,
  };
  const label = words.lash.board(valves.map((valve) => `${valve.name}, ${adjustmentText(valve)}`).join('; '));
  const sides = [valves.filter((valve) => valve.side === 'exhaust'), valves.filter((valve) => valve.side === 'intake')];
  const columns = Math.max(1, ...sides.map((side) => side.length));
  const sheet = stacked
    ? { width: COLUMN, height: Math.max(1, valves.length) * 136 }
    : { width: columns * COLUMN + 16, height: 2 * ROW };
  const placed: Placed[] = stacked
    ? sides.flat().map((valve, row) => ({ valve, x: 66, y: 68 + row * 136 }))
    : sides.flatMap((side, row) =>
        side.map((valve, column) => {
          const start = ((columns - side.length) * COLUMN) / 2;
          return { valve, x: at(start + column * COLUMN + 104), y: 110 + row * ROW };
        }),
      );
  const width = props.width ?? sheet.width;
  return (
    <Drawing
      className="lash-board"
      label={label}
      viewBox={[0, 0, sheet.width, sheet.height]}
      width={width}
      height={at((width * sheet.height) / sheet.width)}
    >
      {stacked
        ? placed
            .slice(1)
            .map(({ valve, y }) => <path key={valve.id} d={`M0 ${y - 68}H${COLUMN}`} className="n faint" />)
        : [
            // Two valves stand in line with the plug; more stand on both sides of it.
            <HeadPlan
              key="plan"
              width={sheet.width}
              middle={columns === 1 ? 104 : sheet.width / 2}
              words={words.lash}
            />,
            <Moves key="moves" placed={placed} />,
          ]}
      {placed.map(({ valve, x, y }) => (
        <LashValveMark key={valve.id} valve={valve} x={x} y={y} lettering={lettering} />
      ))}
    </Drawing>
  );
}
