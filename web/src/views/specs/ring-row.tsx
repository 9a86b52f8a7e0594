import { unitsOfKind } from '#domain/units/unit-table.ts';
import { useWords } from '../../words/words.tsx';
import { FigureField, SelectField, TextField } from './form-fields.tsx';
import { altered } from './list-order.ts';
import type { PrintedPlain, PrintedRing } from './printed.ts';
import { facesOf, type RingAim } from './ring-aims.ts';
import { RowActs } from './row-acts.tsx';

export const noAngle: PrintedPlain = { value: '', unit: 'deg' };
export const angles = { unit: 'deg', units: unitsOfKind('angle') };

interface RingRowProps {
  readonly rings: readonly PrintedRing[];
  readonly at: number;
  readonly ring: PrintedRing;
  readonly aim: RingAim | null;
  readonly onChange: (rings: PrintedRing[]) => void;
}

/** One ring of the sheet: what it is, where its gap goes and who says so, what is marked on it and how that faces. */
export function RingRow({ rings, at, ring, aim, onChange }: RingRowProps) {
  const { specForms: all } = useWords();
  const words = all.rings;
  const set = (next: Partial<PrintedRing>) => onChange(altered(rings, at, next));
  return (
    <li className="entry-row three">
      <b className="num entry-number">{at + 1}</b>
      <TextField
        label={all.code}
        at={`/rings/${at}/code`}
        required
        value={ring.code}
        onChange={(code) => set({ code })}
      />
      <TextField
        label={all.name}
        at={`/rings/${at}/name`}
        required
        value={ring.name}
        onChange={(name) => set({ name })}
      />
      <SelectField
        label={words.part}
        at={`/rings/${at}/part`}
        value={ring.part ?? 'compression'}
        options={words.parts}
        onChange={(part) => set({ part: part ?? 'compression' })}
      />
      <span aria-hidden="true" />
      <FigureField
        label={words.angle}
        at={`/rings/${at}/angle`}
        figure={ring.angle}
        {...angles}
        onChange={(angle) => set({ angle })}
      />
      <FigureField
        label={words.pin}
        at={`/rings/${at}/pin`}
        figure={ring.pin ?? null}
        {...angles}
        onChange={(pin) => set({ pin })}
      />
      <TextField
        label={words.mark}
        at={`/rings/${at}/mark`}
        value={ring.mark ?? ''}
        onChange={(mark) => set({ mark })}
      />
      <span aria-hidden="true" />
      <SelectField
        label={words.faces}
        at={`/rings/${at}/faces`}
        value={facesOf(ring)}
        options={words.facing}
        onChange={(faces) => set({ faces: faces ?? 'either' })}
      />
      <p className="note ring-aim">{words.aim(aim)}</p>
      <RowActs what={words.ring(at + 1)} list={rings} at={at} onChange={onChange} />
    </li>
  );
}
