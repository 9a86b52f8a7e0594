import type { RackPiece } from './rack-facts.ts';

type Mark = {
  readonly piece: RackPiece;
  readonly r: number;
  readonly line: string;
  readonly fine: string;
  readonly fill: string;
};

const hexagon = (r: number): string =>
  `M${r} 0L${r / 2} ${r * 0.87}H${-r / 2}L${-r} 0L${-r / 2} ${-r * 0.87}H${r / 2}Z`;

/** The form of a piece from above, about the origin, within a circle of radius `r`. */
function Form({ piece, r, line, fine, fill }: Mark) {
  const outer = `${line} ${fill}`;
  switch (piece) {
    case 'bucket':
      return (
        <>
          <circle r={r * 0.9} className={outer} />
          <circle r={r * 0.76} className={fine} />
          <circle r={r * 0.4} className={fine} />
        </>
      );
    case 'shim':
      return (
        <>
          <circle r={r * 0.66} className={outer} />
          <circle r={r * 0.56} className={fine} />
        </>
      );
    case 'valve':
      return (
        <>
          <circle r={r * 0.92} className={outer} />
          <circle r={r * 0.78} className={fine} />
          <circle r={r * 0.2} className={line} />
        </>
      );
    case 'cap':
      return (
        <>
          <path
            d={`M${-r * 0.95} ${-r * 0.4}H${-r * 0.42}Q0 ${-r * 0.82} ${r * 0.42} ${-r * 0.4}H${r * 0.95}V${r * 0.4}H${r * 0.42}Q0 ${r * 0.82} ${-r * 0.42} ${r * 0.4}H${-r * 0.95}Z`}
            className={outer}
          />
          <circle cx={-r * 0.68} r={r * 0.16} className={fine} />
          <circle cx={r * 0.68} r={r * 0.16} className={fine} />
          <path d={`M${-r * 0.3} ${-r * 0.5}V${r * 0.5}M${r * 0.3} ${-r * 0.5}V${r * 0.5}`} className={fine} />
        </>
      );
    case 'rocker':
      return (
        <>
          <path
            d={`M${-r * 0.35} ${-r * 0.35}L${-r * 0.18} ${-r * 0.9}H${r * 0.18}L${r * 0.35} ${-r * 0.35}V${r * 0.35}L${r * 0.18} ${r * 0.9}H${-r * 0.18}L${-r * 0.35} ${r * 0.35}Z`}
            className={outer}
          />
          <circle r={r * 0.22} className={fine} />
          <circle cy={-r * 0.68} r={r * 0.1} className={fine} />
        </>
      );
    case 'screw':
      return (
        <>
          <path d={hexagon(r * 0.66)} className={outer} />
          <circle r={r * 0.34} className={fine} />
          <path d={`M${-r * 0.24} ${-r * 0.24}L${r * 0.24} ${r * 0.24}`} className={line} />
        </>
      );
    case 'plate':
      return (
        <>
          <circle r={r * 0.92} className={outer} />
          <circle r={r * 0.58} className={fine} />
          {[0, 60, 120].map((turn) => (
            <path
              key={turn}
              d={`M${-r * 0.92} 0H${-r * 0.58}M${r * 0.58} 0H${r * 0.92}`}
              className={fine}
              transform={`rotate(${turn})`}
            />
          ))}
        </>
      );
    case 'plain':
      return (
        <>
          <rect x={-r * 0.62} y={-r * 0.62} width={r * 1.24} height={r * 1.24} className={outer} />
          <path d={`M${-r * 0.62} ${-r * 0.3}H${r * 0.62}`} className={fine} />
        </>
      );
  }
}

type Props = { readonly piece: RackPiece; readonly r: number; readonly lies: boolean };

/** The piece in ink where it lies; where it is missing, in the phantom line of what belongs there. */
export function RackPieceMark({ piece, r, lies }: Props) {
  return lies ? (
    <Form piece={piece} r={r} line="w" fine="n" fill="f-raised" />
  ) : (
    <Form piece={piece} r={r} line="ph" fine="ph" fill="" />
  );
}
