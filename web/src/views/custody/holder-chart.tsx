import { useId } from 'react';
import type { PeriodInShop } from '#contracts/custody-past.ts';
import { at } from '../../drawings/coordinates.ts';
import { Drawing } from '../../drawings/drawing.tsx';
import { fillWith, Hatch } from '../../drawings/hatch.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type Bar, rowsOf, ticksOf } from './holder-bars.ts';

const ROW = 34;
const BAR = 20;
const HEAD = 26;
const NARROWEST_TEXT = 7.2;

interface HolderChartProps {
  readonly periods: readonly PeriodInShop[];
  readonly from: number;
  readonly until: number;
  /** The moment asked about. */
  readonly moment: number;
  readonly width: number;
}

/** Holders over time, a row an engine or tray: hatched in hand, plain at rest, dashed at a vendor; the moment as a datum line. */
export function HolderChart({ periods, from, until, moment, width }: HolderChartProps) {
  const words = useWords().custody;
  const format = useFormat();
  const id = useId();
  const rows = rowsOf(periods, { from, until });
  const names = width < 560 ? 84 : 168;
  const scale = width - names - 8;
  const height = HEAD + rows.length * ROW + 8;
  const x = (part: number): number => at(names + part * scale);
  const xOf = (instant: number): number => x(Math.min(1, Math.max(0, (instant - from) / (until - from))));
  const long = until - from > 3 * 86_400_000;
  const tick = (instant: number): string => {
    const text = new Date(instant).toISOString();
    return long ? format.date(text).replace(/ \d{4}$/, '') : format.time(text);
  };
  return (
    <Drawing
      viewBox={[0, 0, width, height]}
      width={width}
      height={height}
      label={words.drawing(rows.length)}
      className="holder-chart"
    >
      <defs>
        <Hatch id={`${id}hand`} pitch={7} line={0.9} />
      </defs>
      {ticksOf({ from, until }).map((instant) => (
        <g key={instant}>
          <path d={`M${xOf(instant)} ${HEAD - 4}V${height - 4}`} className="tick" />
          <text x={xOf(instant)} y={HEAD - 10} textAnchor="middle" className="scale">
            {tick(instant)}
          </text>
        </g>
      ))}
      {rows.map((row, index) => {
        const y = HEAD + index * ROW;
        return (
          <g key={row.key}>
            <text
              x={row.subject.kind === 'tray' ? 12 : 0}
              y={y + ROW / 2 + 4}
              className={row.subject.kind === 'tray' ? 'tray' : 'engine'}
            >
              {row.subject.kind === 'tray' ? row.subject.name : row.engine.serial}
            </text>
            <path d={`M${names} ${y + ROW - 1}H${width - 8}`} className="base" />
            {row.bars.map((bar) => (
              <HolderBar key={bar.period.id} bar={bar} x={x} y={y + (ROW - BAR) / 2} hatch={fillWith(`${id}hand`)} />
            ))}
          </g>
        );
      })}
      <path d={`M${xOf(moment)} ${HEAD - 8}V${height}`} className="moment" />
      <path d={`M${xOf(moment) - 5} ${HEAD - 8}h10l-5 7z`} className="moment-mark" />
    </Drawing>
  );
}

interface HolderBarProps {
  readonly bar: Bar;
  readonly x: (part: number) => number;
  readonly y: number;
  readonly hatch: string;
}

function HolderBar({ bar, x, y, hatch }: HolderBarProps) {
  const words = useWords().custody;
  const format = useFormat();
  const { holder, place, subject, engine, from, until } = bar.period;
  const wide = Math.max(2, x(bar.end) - x(bar.start));
  const room = Math.floor((wide - 10) / NARROWEST_TEXT);
  const what = subject.kind === 'tray' ? words.tray(subject.name) : engine.serial;
  const where = place === null ? words.noPlace : place.name;
  const until_ = until === null ? words.still : format.since(until);
  const name = holder.name.length <= room ? holder.name : room >= 5 ? `${holder.name.slice(0, room - 1)}…` : '';
  return (
    <g>
      <title>{words.barOf(what, holder.name, where, format.since(from), until_)}</title>
      <rect x={x(bar.start)} y={y} width={wide} height={BAR} className={`holder ${holder.kind}`} />
      {holder.kind === 'person' ? <rect x={x(bar.start)} y={y} width={wide} height={BAR} fill={hatch} /> : null}
      {name === '' ? null : (
        <>
          <rect
            x={x(bar.start) + 3}
            y={y + 3}
            width={Math.min(wide - 6, name.length * NARROWEST_TEXT + 5)}
            height={BAR - 6}
            className="f-paper"
          />
          <text x={x(bar.start) + 5} y={y + 14} className="name">
            {name}
          </text>
        </>
      )}
    </g>
  );
}
