import { Drawing } from './drawing.tsx';
import type { RackPiece } from './rack-facts.ts';
import { RackPieceMark } from './rack-piece-mark.tsx';

type Props = { readonly piece: RackPiece; readonly filled: boolean | null; readonly wrong: boolean };

/** One place of a rack beside words that say the same. */
export function RackWellSign({ piece, filled, wrong }: Props) {
  return (
    <Drawing viewBox={[-30, -30, 60, 60]} width={48} height={48}>
      <circle r={24} className={filled === true ? 'n f-paper' : 'n f-paper3'} />
      {filled === null ? null : <RackPieceMark piece={piece} r={21} lies={filled} />}
      {wrong ? <circle r={27.5} className="hotring" /> : null}
    </Drawing>
  );
}
