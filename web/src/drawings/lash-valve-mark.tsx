import { adjustmentText, type LashInterval, type LashValve } from './lash-facts.ts';
import type { DrawingWords } from './words.ts';

export type LashLettering = {
  /** Lash is lettered by the blade's decimals, shims by the micrometer's. */
  readonly lash: (value: number) => string;
  readonly shim: (value: number) => string;
  readonly size: (value: number) => string;
  readonly words: DrawingWords['lash'];
};

type Props = {
  readonly valve: LashValve;
  readonly x: number;
  readonly y: number;
  readonly lettering: LashLettering;
};

function shimClass(valve: LashValve): string {
  if (valve.adjustment.kind === 'screw') return 'w f-paper';
  switch (valve.adjustment.source.kind) {
    case 'stays':
      return 'w f-paper3';
    case 'bin':
      return 'held';
    case 'buy':
    case 'none':
      return 'lack';
    case 'moves':
      return 'w f-paper';
  }
}

/** The bucket from above with its shim, or the screw in its lock nut. */
function FromAbove({ valve, x, y, lettering }: Props) {
  const { adjustment } = valve;
  return (
    <g data-adjuster={adjustment.kind}>
      <circle cx={x} cy={y} r={52} className="w f-paper" />
      <circle cx={x} cy={y} r={45} className="n" />
      <path d={`M${x - 58} ${y}h116M${x} ${y - 58}v116`} className="cl" />
      {adjustment.kind === 'shim' ? (
        <>
          <circle cx={x} cy={y} r={25} className={shimClass(valve)} />
          <text x={x} y={y + 6} textAnchor="middle" className="tn b big">
            {adjustment.chosen === null ? '–' : lettering.size(adjustment.chosen)}
          </text>
        </>
      ) : (
        <>
          <path
            d={`M${x - 15} ${y - 26}H${x + 15}L${x + 30} ${y}L${x + 15} ${y + 26}H${x - 15}L${x - 30} ${y}Z`}
            className="w f-raised"
          />
          <circle cx={x} cy={y} r={15} className="w f-paper" />
          <path d={`M${x - 9} ${y - 9}L${x + 9} ${y + 9}`} className="x" />
        </>
      )}
    </g>
  );
}

/** One valve: the drawing left, four lines of facts right. */
export function LashValveMark({ valve, x, y, lettering }: Props) {
  const { words } = lettering;
  const { adjustment } = valve;
  const left = x + 68;
  const right = x + 222;
  const interval = (value: LashInterval | null) =>
    value === null ? '–' : words.between(lettering.lash(value[0]), lettering.lash(value[1]));
  const held = adjustment.kind === 'shim' && adjustment.source.kind === 'bin';
  const lacking = adjustment.kind === 'shim' && (adjustment.source.kind === 'buy' || adjustment.source.kind === 'none');
  return (
    <g data-valve={valve.id}>
      <FromAbove valve={valve} x={x} y={y} lettering={lettering} />
      <text x={left} y={y - 40} className="tx b clear">
        {valve.name}
      </text>
      <text x={left} y={y - 18} className="tx2 clear">
        {words.lash}
      </text>
      <text x={right} y={y - 18} textAnchor="end" className={valve.out ? 'tn b hot clear' : 'tn clear'}>
        {interval(valve.lash)}
        {valve.out ? ` ${words.out}` : ''}
      </text>
      <text x={left} y={y + 1} className="tx2 clear">
        {adjustment.kind === 'shim' ? words.shimIn : words.turn}
      </text>
      {adjustment.kind === 'shim' ? (
        <text x={right} y={y + 1} textAnchor="end" className="tn clear">
          {adjustment.fitted === null ? '–' : lettering.shim(adjustment.fitted)}
        </text>
      ) : null}
      <path d={`M${left} ${y + 9}H${right}`} className="n faint" />
      <text x={left} y={y + 26} className="tx2 clear">
        {words.thenLash}
      </text>
      <text x={right} y={y + 26} textAnchor="end" className="tn b clear">
        {interval(adjustment.after)}
      </text>
      <text x={left} y={y + 47} className={held ? 'tx b clear quiet' : lacking ? 'tx b clear hot' : 'tx b clear'}>
        {adjustmentText(valve)}
      </text>
    </g>
  );
}
