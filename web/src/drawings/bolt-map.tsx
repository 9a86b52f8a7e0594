import { useId } from 'react';
import type { Bolt } from './bolt-facts.ts';
import { BoltMark } from './bolt-mark.tsx';
import { at } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';
import { type DrawingWords, englishWords } from './words.ts';

export type BoltMapProps = {
  readonly bolts: readonly Bolt[];
  /** The stage being worked at, from 1. */
  readonly stage: number;
  readonly stages: number;
  /** Id of the bolt to turn next. */
  readonly next?: string | null;
  readonly width?: number;
  /** Given, every bolt is a button; the drawing decides nothing about what a tap means. */
  readonly onBolt?: (id: string) => void;
  /** A four-valve chamber and chain tunnel behind the bolts, for a head. */
  readonly backdrop?: 'four-valve-head' | 'plain';
  readonly words?: Pick<DrawingWords, 'bolts'>;
};

/** Half a bolt's own size with its ring, in units of the sheet. */
const MARK = 30;
const SHEET = 408;

/** The pattern scaled to fit the sheet, its own proportions kept; a single row or one bolt stays in the middle. */
export function placeBolts(bolts: readonly Pick<Bolt, 'x' | 'y'>[], sheet: { width: number; minHeight: number }) {
  if (bolts.length === 0) return { places: [], height: sheet.minHeight };
  const xs = bolts.map((bolt) => bolt.x);
  const ys = bolts.map((bolt) => bolt.y);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [across, up] = [right - left, high - low];
  const margin = MARK + 22;
  const room = sheet.width - 2 * margin;
  const widest = across > 0 ? room / across : Number.POSITIVE_INFINITY;
  const tallest = up > 0 ? room / up : Number.POSITIVE_INFINITY;
  const scale = Math.min(widest, tallest);
  const factor = Number.isFinite(scale) ? scale : 1;
  const height = Math.max(sheet.minHeight, up * factor + 2 * margin);
  const places = bolts.map(({ x, y }) => ({
    x: at(sheet.width / 2 + (x - (left + right) / 2) * factor),
    y: at(height / 2 - (y - (low + high) / 2) * factor),
  }));
  return { places, height: at(height) };
}

function HeadBackdrop({ height, pattern }: { readonly height: number; readonly pattern: string }) {
  const [x, y] = [SHEET / 2 - 16, height / 2];
  const h = height;
  return (
    <g data-layer="backdrop">
      <path
        d={`M34 14Q86 22 118 12Q150 2 ${x} 8Q234 2 266 12Q298 22 330 14Q352 16 356 40L398 64V${h - 64}L356 ${h - 40}Q352 ${h - 16} 330 ${h - 14}Q298 ${h - 22} 266 ${h - 12}Q234 ${h - 2} ${x} ${h - 8}Q150 ${h - 2} 118 ${h - 12}Q86 ${h - 22} 34 ${h - 14}Q10 ${h - 18} 8 ${h - 44}V44Q10 18 34 14Z`}
        className="w f-paper"
      />
      <circle cx={x} cy={y} r={66} className="n" />
      <circle cx={x} cy={y} r={5} className="w" />
      {(
        [
          [-25, -28, 25],
          [25, -28, 25],
          [-22, 28, 21],
          [22, 28, 21],
        ] as const
      ).map(([dx, dy, r]) => (
        <circle key={`${dx},${dy}`} cx={x + dx} cy={y + dy} r={r} className="n" />
      ))}
      <path
        d={`M346 ${y - 44}H384V${y + 44}H346Q338 ${y + 44} 338 ${y + 36}V${y - 36}Q338 ${y - 44} 346 ${y - 44}Z`}
        className="n"
        fill={fillWith(pattern)}
      />
      <path d={`M${x} 0V${h}M0 ${y}H${SHEET}`} className="cl" />
    </g>
  );
}

/** The bolt pattern: order lettered, stages done as ring segments filled, the next one ringed. */
export function BoltMap(props: BoltMapProps) {
  const { bolts, stage, stages, next = null, width = 420, onBolt, backdrop = 'plain', words = englishWords } = props;
  const id = useId();
  const { places, height } = placeBolts(bolts, { width: SHEET, minHeight: backdrop === 'plain' ? 2 * MARK + 20 : 276 });
  const nextNumber = bolts.find((bolt) => bolt.id === next)?.number ?? null;
  return (
    <Drawing
      className="bolt-map"
      label={words.bolts.map(bolts.length, stage, stages, nextNumber)}
      interactive={onBolt !== undefined}
      viewBox={[0, 0, SHEET, height]}
      width={width}
      height={at((width * height) / SHEET)}
    >
      <defs>
        <Hatch id={`${id}chain`} pitch={5} line={0.6} />
      </defs>
      {backdrop === 'four-valve-head' ? <HeadBackdrop height={height} pattern={`${id}chain`} /> : null}
      {bolts.map((bolt, index) => {
        const place = places[index];
        return place === undefined ? null : (
          <BoltMark
            key={bolt.id}
            bolt={bolt}
            place={place}
            stages={stages}
            next={bolt.id === next}
            onBolt={onBolt}
            words={words.bolts}
          />
        );
      })}
    </Drawing>
  );
}
