import { type BoreAxis, type BoreLayout, type BoreLevel, type BoreResult, isReading, roundDown } from './bore-facts.ts';
import { at, scaleBetween } from './coordinates.ts';
import type { DrawingWords } from './words.ts';

type Scale = { readonly x: (value: number) => number; readonly y: (mm: number) => number };

function pathOf(levels: readonly BoreLevel[], axis: BoreAxis, { x, y }: Scale): string {
  let drawing = false;
  return levels
    .map((level) => {
      const value = level[axis];
      if (!isReading(value)) {
        drawing = false;
        return '';
      }
      const point = `${drawing ? 'L' : 'M'}${at(x(value))} ${at(y(level.height))}`;
      drawing = true;
      return point;
    })
    .join('');
}

function OutOfRound({ level, scale }: { readonly level: BoreLevel; readonly scale: Scale }) {
  const { across, along, height } = level;
  if (!isReading(across) || !isReading(along)) return null;
  const y = at(scale.y(height));
  const [a, b] = [at(scale.x(Math.min(across, along))), at(scale.x(Math.max(across, along)))];
  const line = y - 15;
  return (
    <g data-layer="out-of-round">
      <path d={`M${a} ${y - 6}V${line - 4}M${b} ${y - 6}V${line - 4}M${a} ${line}H${b}`} className="n" />
      <path
        d={
          b - a < 14
            ? `M${a} ${line}l-6-2.4v4.8zM${b} ${line}l6-2.4v4.8z`
            : `M${a} ${line}l6-2.4v4.8zM${b} ${line}l-6-2.4v4.8z`
        }
        className="f-ink"
      />
    </g>
  );
}

type TaperProps = {
  readonly levels: readonly BoreLevel[];
  readonly axis: BoreAxis;
  readonly scale: Scale;
  readonly floor: number;
};

function Taper({ levels, axis, scale, floor }: TaperProps) {
  const points = levels.flatMap((level) => {
    const value = level[axis];
    return isReading(value) ? [{ value, height: level.height }] : [];
  });
  const sorted = [...points].sort((p, q) => p.value - q.value);
  const [small, large] = [sorted[0], sorted.at(-1)];
  if (small === undefined || large === undefined) return null;
  const [a, b] = [at(scale.x(small.value)), at(scale.x(large.value))];
  return (
    <g data-layer="taper">
      <path
        d={`M${a} ${at(scale.y(small.height) + 7)}V${floor + 5}M${b} ${at(scale.y(large.height) + 8)}V${floor + 5}`}
        className="n faint"
      />
      <path d={`M${a} ${floor}H${b}`} className="n" />
      <path
        d={
          b - a < 16
            ? `M${a} ${floor}l-7-2.6v5.2zM${b} ${floor}l7-2.6v5.2z`
            : `M${a} ${floor}l7-2.6v5.2zM${b} ${floor}l-7-2.6v5.2z`
        }
        className="f-ink"
      />
    </g>
  );
}

export type BoreFormProps = {
  readonly levels: readonly BoreLevel[];
  readonly layout: BoreLayout;
  readonly nominal: number;
  readonly limit: number | null;
  readonly result: BoreResult;
  readonly letter: (value: number) => string;
  readonly words: DrawingWords['bore'];
};

/** Size over height, the scale across exaggerated, both axes; the limit as a heavy line. */
export function BoreForm({ levels, layout, nominal, limit, result, letter, words }: BoreFormProps) {
  const { formLeft, formWidth, top, depth, heightAt } = layout;
  const read = levels.flatMap(({ across, along }) => [across, along].filter(isReading));
  const values = [...read, nominal, ...(limit === null ? [] : [limit])];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const margin = (most - least || 0.05) * 0.1;
  const scale = { x: scaleBetween(least - margin, most + margin, [formLeft, formLeft + formWidth]), y: heightAt };
  const bottom = top + depth;
  const bar = roundDown(((most - least + 2 * margin) * 60) / formWidth);
  const barLength = at(scale.x(least + bar) - scale.x(least));
  const taperAxis = result.taperAxis ?? null;
  const level =
    result.outOfRoundLevel === undefined || result.outOfRoundLevel === null
      ? undefined
      : levels[result.outOfRoundLevel];
  const limitClose = limit !== null && Math.abs(scale.x(limit) - scale.x(nominal)) < 58;
  return (
    <g data-layer="form">
      <path d={`M${formLeft} ${top}V${bottom}H${formLeft + formWidth}`} className="n" />
      <path d={`M${at(scale.x(nominal))} ${top - 6}V${bottom}`} className="cl" />
      {limitClose ? null : (
        <text x={at(scale.x(nominal))} y={top - 15} textAnchor="middle" className="tn">
          {letter(nominal)}
        </text>
      )}
      {limit === null ? null : (
        <>
          <path d={`M${at(scale.x(limit))} ${top - 10}V${bottom}`} className="lim" data-mark="upper" />
          <text x={at(scale.x(limit))} y={top - 15} textAnchor="middle" className="tn b">
            {letter(limit)}
          </text>
        </>
      )}
      <path d={`M${formLeft + 8} ${bottom - 12}h${barLength}m0-4v8m${-barLength}-8v8`} className="n" />
      <text x={formLeft + 8} y={bottom - 20} className="tn bgp">
        {letter(bar)}
      </text>
      <path d={pathOf(levels, 'across', scale)} className="w" />
      <path d={pathOf(levels, 'along', scale)} className="hidw" />
      {levels.map(({ height, across, along }) => (
        <g key={height}>
          {isReading(across) ? (
            <circle cx={at(scale.x(across))} cy={at(heightAt(height))} r={4.5} className="f-ink" data-axis="across" />
          ) : null}
          {isReading(along) ? (
            <rect
              x={at(scale.x(along) - 4)}
              y={at(heightAt(height) - 4)}
              width={8}
              height={8}
              className="w f-paper"
              data-axis="along"
            />
          ) : null}
        </g>
      ))}
      {level === undefined ? null : <OutOfRound level={level} scale={scale} />}
      {taperAxis === null ? null : <Taper levels={levels} axis={taperAxis} scale={scale} floor={bottom + 14} />}
      {result.taper === null ? null : (
        <text x={formLeft + formWidth / 2} y={bottom + 32} textAnchor="middle" className="tn b">
          {words.taper(letter(result.taper))}
        </text>
      )}
      <g transform={`translate(${formLeft} ${bottom + 50})`}>
        <circle cx={5} cy={-4} r={4.5} className="f-ink" />
        <text x={15} className="tx2">
          {words.across}
        </text>
        <rect x={1} y={8} width={8} height={8} className="w f-paper" />
        <text x={15} y={16} className="tx2">
          {words.along}
        </text>
      </g>
    </g>
  );
}
