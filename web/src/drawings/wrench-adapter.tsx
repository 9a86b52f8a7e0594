import { at } from './coordinates.ts';
import { Drawing } from './drawing.tsx';

export interface WrenchAdapterProps {
  /** From the middle of the grip to the square, mm. */
  readonly wrench: number;
  /** From the square to the bolt, mm. */
  readonly adapter: number;
  /** Degrees from straight on: 90 square to the handle, 180 turned right back. */
  readonly angle: number;
  readonly words: {
    readonly label: (wrench: string, adapter: string, angle: string) => string;
    readonly lever: (length: string) => string;
  };
}

const WIDE = 420;
const said = (value: number) => String(Math.round(value * 10) / 10);

/** The wrench from above with its adapter at its angle, lengths to one scale, and the lever that is left. */
export function WrenchAdapter({ wrench, adapter, angle, words }: WrenchAdapterProps) {
  if (!(wrench > 0) || !(adapter > 0) || !(angle >= 0 && angle <= 180)) return null;
  const turn = (angle * Math.PI) / 180;
  const [along, aside] = [adapter * Math.cos(turn), adapter * Math.sin(turn)];
  const scale = Math.min(330 / (wrench + Math.max(0, along)), 130 / Math.max(aside, 1), 1.2);
  const grip = { x: 40, y: Math.max(40, aside * scale + 34) };
  const square = { x: grip.x + wrench * scale, y: grip.y };
  const bolt = { x: square.x + along * scale, y: square.y - aside * scale };
  const foot = grip.y + 62;
  const height = at(foot + 12);
  const lever = wrench + along;
  const hexagon = Array.from({ length: 6 }, (_, index) => {
    const corner = (index * Math.PI) / 3;
    return `${at(bolt.x + 9 * Math.cos(corner))} ${at(bolt.y + 9 * Math.sin(corner))}`;
  }).join('L');
  return (
    <Drawing
      label={words.label(said(wrench), said(adapter), said(angle))}
      viewBox={[0, 0, WIDE, height]}
      width={WIDE}
      height={height}
    >
      <path d={`M${at(square.x)} ${at(grip.y)}H${at(Math.min(square.x + 90, WIDE - 6))}`} className="cl" />
      <path
        d={`M${grip.x - 24} ${at(grip.y - 9)}H${grip.x + 24}V${at(grip.y - 5)}H${at(square.x)}V${at(grip.y + 5)}H${grip.x + 24}V${at(grip.y + 9)}H${grip.x - 24}Z`}
        className="w f-raised"
      />
      <path d={`M${grip.x} ${at(grip.y - 16)}V${at(grip.y + 16)}`} className="cl" />
      <path d={`M${at(square.x)} ${at(square.y)}L${at(bolt.x)} ${at(bolt.y)}`} className="w" />
      <circle cx={at(bolt.x)} cy={at(bolt.y)} r={15} className="w f-paper" />
      <path d={`M${hexagon}Z`} className="w f-raised" />
      <path d={`M${at(square.x - 8)} ${at(square.y - 8)}h16v16h-16Z`} className="w f-paper" />
      <text x={at((grip.x + square.x) / 2)} y={at(grip.y - 14)} textAnchor="middle" className="tn bgp">
        {said(wrench)}
      </text>
      <text
        x={at(bolt.x + (angle > 90 ? -20 : 20))}
        y={at(bolt.y - 10)}
        textAnchor={angle > 90 ? 'end' : 'start'}
        className="tn"
      >
        {said(adapter)}
      </text>
      <text x={at(square.x + 6)} y={at(grip.y + 28)} className="tx2">
        {said(angle)}°
      </text>
      <path
        d={`M${grip.x} ${at(grip.y + 20)}V${at(foot + 6)}M${at(bolt.x)} ${at(bolt.y + 18)}V${at(foot + 6)}`}
        className="n faint"
      />
      <path d={`M${grip.x} ${at(foot)}H${at(bolt.x)}`} className="n" />
      <path
        d={`M${grip.x} ${at(foot)}l9 -3v6ZM${at(bolt.x)} ${at(foot)}l${lever > 0 ? -9 : 9} -3v6Z`}
        className="f-ink"
      />
      <text x={at((grip.x + bolt.x) / 2)} y={at(foot - 6)} textAnchor="middle" className="tn b bgp">
        {words.lever(said(lever))}
      </text>
    </Drawing>
  );
}
