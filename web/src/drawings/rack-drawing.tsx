import { at } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { asButton } from './press.ts';
import { isWrong, type RackPiece, type RackWell } from './rack-facts.ts';
import { RackPieceMark } from './rack-piece-mark.tsx';
import { type DrawingWords, englishWords } from './words.ts';

export type RackDrawingProps = {
  readonly name: string;
  readonly piece: RackPiece;
  readonly wells: readonly RackWell[];
  readonly chosen?: ReadonlySet<string>;
  /** Given, every place is a button; the drawing decides nothing about what a tap means. */
  readonly onPlace?: (code: string) => void;
  /** As many places beside each other at most. */
  readonly across?: number;
  readonly words?: Pick<DrawingWords, 'rack'>;
};

const EDGE = 14;

/** Places named by a valve need room for its name; numbers need less. */
const cells = { valves: { width: 148, height: 132, r: 38 }, numbers: { width: 82, height: 98, r: 28 } } as const;

type Placed = { readonly well: RackWell; readonly x: number; readonly y: number };

/** Valves as they stand in the head, exhaust above intake; numbered places row by row. */
export function placeWells(wells: readonly RackWell[], across: number) {
  const sides = [wells.filter(({ side }) => side === 'exhaust'), wells.filter(({ side }) => side === 'intake')];
  const byValve = wells.length > 0 && wells.every(({ side }) => side !== '');
  const rows: readonly (readonly RackWell[])[] = byValve
    ? sides.filter((side) => side.length > 0)
    : Array.from({ length: Math.ceil(wells.length / across) }, (_, row) =>
        wells.slice(row * across, (row + 1) * across),
      );
  const cell = byValve ? cells.valves : cells.numbers;
  const columns = Math.max(1, ...rows.map((row) => row.length));
  const width = columns * cell.width + 2 * EDGE;
  const placed: Placed[] = rows.flatMap((row, down) => {
    const start = EDGE + (byValve ? ((columns - row.length) * cell.width) / 2 : 0);
    return row.map((well, column) => ({
      well,
      x: at(start + (column + 0.5) * cell.width),
      y: at(EDGE + down * cell.height + cell.r + 16),
    }));
  });
  return { placed, width, height: Math.max(1, rows.length) * cell.height + 2 * EDGE, byValve, cell };
}

/** The corners of a square about the chosen place, and a tick: told by shape before colour. */
function Chosen({ r }: { readonly r: number }) {
  const [s, c] = [r + 9, 12];
  return (
    <g data-chosen="">
      <path
        d={`M${-s} ${-s + c}V${-s}H${-s + c}M${s - c} ${-s}H${s}V${-s + c}M${s} ${s - c}V${s}H${s - c}M${-s + c} ${s}H${-s}V${s - c}`}
        className="x"
      />
      <circle cx={s - 3} cy={-s + 3} r={11} className="f-ink" />
      <path d={`M${s - 8} ${-s + 3}l4 4l7 -8`} className="tick" />
    </g>
  );
}

type WellState = 'hidden' | 'filled' | 'elsewhere' | 'empty';
const stateOf = ({ filled, elsewhere }: RackWell): WellState =>
  filled === null ? 'hidden' : !filled ? 'empty' : elsewhere === '' ? 'filled' : 'elsewhere';
/** What lies elsewhere has its outline broken: its place is kept, and empty here. */
const wellClass: Readonly<Record<WellState, string>> = {
  hidden: 'n f-paper3',
  empty: 'n f-paper3',
  filled: 'n f-paper',
  elsewhere: 'hid f-paper3',
};

type WellProps = Placed & {
  readonly piece: RackPiece;
  readonly r: number;
  readonly chosen: boolean;
  readonly onPlace: RackDrawingProps['onPlace'];
  readonly words: DrawingWords['rack'];
};

function nameOf(well: RackWell, words: DrawingWords['rack']): string {
  if (well.filled === null) return words.hidden(well.name);
  if (isWrong(well)) return words.wrong(well.name, well.fromName);
  if (well.elsewhere !== '') return words.elsewhere(well.name, well.elsewhere);
  return well.filled ? words.filled(well.name) : words.empty(well.name);
}

function Well({ well, x, y, piece, r, chosen, onPlace, words }: WellProps) {
  const wrong = isWrong(well);
  const press =
    onPlace === undefined ? {} : { ...asButton(nameOf(well, words), () => onPlace(well.code)), 'aria-pressed': chosen };
  return (
    <g
      transform={`translate(${x} ${y})`}
      className={onPlace === undefined ? 'well' : 'well press'}
      data-place={well.code}
      data-state={stateOf(well)}
      {...press}
    >
      {onPlace === undefined ? null : (
        <rect x={-r - 12} y={-r - 12} width={2 * r + 24} height={2 * r + 56} className="reach" />
      )}
      <circle r={r + 3} className={wellClass[stateOf(well)]} />
      <path d={`M${-r - 9} 0H${r + 9}M0 ${-r - 9}V${r + 9}`} className="cl" />
      {well.filled === null ? (
        <text y={7} textAnchor="middle" className="tn b big clear">
          ?
        </text>
      ) : (
        <RackPieceMark piece={piece} r={r} lies={well.filled && well.elsewhere === ''} />
      )}
      {wrong ? <circle r={r + 7} className="hotring" data-wrong="" /> : null}
      {chosen ? <Chosen r={r} /> : null}
      <text y={r + 25} textAnchor="middle" className="tx b bgp">
        {/* The space keeps the two lines apart where they are read out as one. */}
        {wrong ? `${well.name} ` : well.name}
      </text>
      {wrong ? (
        <text y={r + 42} textAnchor="middle" className="tx2 strong hot bgp">
          {words.from(well.fromName)}
        </text>
      ) : well.elsewhere === '' ? null : (
        <text y={r + 42} textAnchor="middle" className="tx2 bgp">
          {well.elsewhere}
        </text>
      )}
    </g>
  );
}

/** From the well a piece belongs to, to the one it lies in, bowed so that an exchange is two arcs. */
function crossing(from: Placed, to: Placed, r: number) {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const bow = Math.min(26, length / 5);
  const start = { x: from.x + ux * (r + 10) - uy * bow * 0.4, y: from.y + uy * (r + 10) + ux * bow * 0.4 };
  const end = { x: to.x - ux * (r + 12) - uy * bow * 0.4, y: to.y - uy * (r + 12) + ux * bow * 0.4 };
  const middle = { x: (start.x + end.x) / 2 - uy * bow, y: (start.y + end.y) / 2 + ux * bow };
  const heading = Math.atan2(end.y - middle.y, end.x - middle.x);
  const barb = (turn: number) =>
    `${at(end.x - 11 * Math.cos(heading + turn))} ${at(end.y - 11 * Math.sin(heading + turn))}`;
  return {
    line: `M${at(start.x)} ${at(start.y)}Q${at(middle.x)} ${at(middle.y)} ${at(end.x)} ${at(end.y)}`,
    head: `M${at(end.x)} ${at(end.y)}L${barb(0.45)}L${barb(-0.45)}Z`,
  };
}

function Crossings({ placed, r }: { readonly placed: readonly Placed[]; readonly r: number }) {
  return placed.map((to) => {
    const from = placed.find(({ well }) => well.code === to.well.from);
    if (!isWrong(to.well) || from === undefined) return null;
    const arc = crossing(from, to, r);
    return (
      <g key={to.well.code} data-crossing={`${to.well.from} ${to.well.code}`}>
        <path d={arc.line} className="wh hot" />
        <path d={arc.head} className="mk" />
      </g>
    );
  });
}

/** A set kept in order, from above: what lies in its place, which place is empty, and what lies in another's. */
export function RackDrawing(props: RackDrawingProps) {
  const { name, piece, wells, chosen = new Set(), onPlace, across = 4, words = englishWords } = props;
  const { placed, width, height, byValve, cell } = placeWells(wells, across);
  const label = words.rack.board(name, wells.map((well) => nameOf(well, words.rack)).join('; '));
  return (
    <Drawing
      className="rack"
      label={label}
      interactive={onPlace !== undefined}
      viewBox={[0, 0, width, height]}
      width={width}
      height={height}
    >
      <path
        d={`M12 2H${width - 2}V${height - 12}L${width - 12} ${height - 2}H2V12Z`}
        className="w f-paper"
        data-layer="block"
      />
      {byValve && placed.length > 2 ? (
        <path d={`M${width / 2} 8V${height - 8}M8 ${EDGE + cell.height - 4}H${width - 8}`} className="cl faint" />
      ) : null}
      <Crossings placed={placed} r={cell.r} />
      {placed.map((one) => (
        <Well
          key={one.well.code}
          {...one}
          piece={piece}
          r={cell.r}
          chosen={chosen.has(one.well.code)}
          onPlace={onPlace}
          words={words.rack}
        />
      ))}
    </Drawing>
  );
}
