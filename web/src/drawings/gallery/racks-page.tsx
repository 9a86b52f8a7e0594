import { useState } from 'react';
import { RackDrawing } from '../rack-drawing.tsx';
import type { RackPiece, RackWell } from '../rack-facts.ts';

const well = (code: string, side: RackWell['side'], changes: Partial<RackWell> = {}): RackWell => {
  const name = side === '' ? code : `${side} ${code.endsWith('l') ? 'left' : 'right'}`;
  return { code, name, side, filled: true, from: code, fromName: name, elsewhere: '', ...changes };
};
const head = [well('xl', 'exhaust'), well('xr', 'exhaust'), well('il', 'intake'), well('ir', 'intake')];
const crossed = head.map((one) =>
  one.code === 'il'
    ? { ...one, from: 'xr', fromName: 'exhaust right' }
    : one.code === 'xr'
      ? { ...one, from: 'il', fromName: 'intake left' }
      : one,
);
const some = head.map((one) => ({ ...one, filled: one.code.startsWith('x') }));
const pieces: readonly RackPiece[] = ['bucket', 'shim', 'valve', 'cap', 'rocker', 'screw', 'plate', 'plain'];

function Chosen() {
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set(['xl']));
  return (
    <RackDrawing
      name="Bucket"
      piece="bucket"
      wells={head}
      chosen={chosen}
      onPlace={(code) => setChosen(new Set([code]))}
    />
  );
}

/** Sets kept in order: filled, empty, in another's place, not told yet. */
export function RacksPage() {
  return (
    <section>
      <h2>Racks</h2>
      <Chosen />
      <RackDrawing name="Shim" piece="shim" wells={some} />
      <RackDrawing name="Bucket" piece="bucket" wells={crossed} />
      <RackDrawing name="Valve" piece="valve" wells={head.map((one) => ({ ...one, filled: null }))} />
      {pieces.map((piece) => (
        <RackDrawing
          key={piece}
          name={piece}
          piece={piece}
          wells={['1', '2', '3', '4', '5'].map((code) => well(code, '', { filled: code !== '3' }))}
        />
      ))}
      <RackDrawing
        name="Clutch plate"
        piece="plate"
        across={8}
        wells={Array.from({ length: 13 }, (_, index) => well(`${index + 1}`, ''))}
      />
    </section>
  );
}
