import type { Bolt } from './bolt-facts.ts';
import { at, onCircle } from './coordinates.ts';
import { asButton } from './press.ts';
import type { DrawingWords } from './words.ts';

const OUTER = 21;
const INNER = 14;

type Place = { readonly x: number; readonly y: number };

/** One stage's share of the ring; a single stage is the whole ring. */
function segment(place: Place, stage: number, stages: number): string {
  const share = 360 / stages;
  const gap = Math.min(5, share / 6);
  const [from, to] = [stage * share + gap, (stage + 1) * share - gap];
  const on = (radius: number, angle: number) => {
    const { x, y } = onCircle(place, radius, angle);
    return `${at(x)} ${at(y)}`;
  };
  const wide = to - from > 180 ? 1 : 0;
  return `M${on(OUTER, from)}A${OUTER} ${OUTER} 0 ${wide} 1 ${on(OUTER, to)}L${on(INNER, to)}A${INNER} ${INNER} 0 ${wide} 0 ${on(INNER, from)}Z`;
}

type Props = {
  readonly bolt: Bolt;
  readonly place: Place;
  readonly stages: number;
  readonly next: boolean;
  readonly onBolt: ((id: string) => void) | undefined;
  readonly words: DrawingWords['bolts'];
};

export function BoltMark({ bolt, place, stages, next, onBolt, words }: Props) {
  const name = words.bolt(bolt.number, bolt.stagesDone, stages, next);
  const button = onBolt === undefined ? {} : asButton(name, () => onBolt(bolt.id));
  return (
    <g className={onBolt === undefined ? 'bolt' : 'bolt press'} data-bolt={bolt.number} {...button}>
      {onBolt === undefined ? null : <circle cx={place.x} cy={place.y} r={30} className="reach" />}
      {next ? <circle cx={place.x} cy={place.y} r={28} className="nextring" /> : null}
      <circle cx={place.x} cy={place.y} r={OUTER} className="w f-raised" />
      {Array.from({ length: Math.max(stages, 0) }, (_, stage) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: a stage is its place in the order
          key={stage}
          d={segment(place, stage, stages)}
          className={stage < bolt.stagesDone ? 'f-ink' : 'seg'}
          data-stage={stage < bolt.stagesDone ? 'done' : 'open'}
        />
      ))}
      <text x={place.x} y={place.y + 5.5} textAnchor="middle" className="tn b big">
        {bolt.number}
      </text>
      {bolt.place === undefined ? null : (
        <text x={place.x + 24} y={place.y - 23} className="tx2" data-place={bolt.place}>
          {bolt.place}.
        </text>
      )}
    </g>
  );
}
