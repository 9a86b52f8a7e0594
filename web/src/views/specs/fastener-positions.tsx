import { useState } from 'react';
import { readPastedPositions } from '#domain/spec-sheet/pasted-positions.ts';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import { BoltMap } from '../../drawings/bolt-map.tsx';
import { BoltSheet } from '../../kit/bolt-sheet.tsx';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import type { PlaceOnSheet } from '../../kit/sheet-of-places.ts';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { drawnPositions, type FastenerPosition, type FastenersProps } from './fastener-entry.ts';
import { FaultAt } from './fault-scope.tsx';
import { SelectField, TextField } from './form-fields.tsx';
import { RowActs } from './row-acts.tsx';

const mostPositions = 60;

/** Where the fasteners of a set are, in tightening order, drawn as they are keyed or pasted. */
export function FastenerPositions({ entry, change }: FastenersProps) {
  const words = useWords().specForms.fasteners;
  const { positions } = entry;
  const unit = positions[0]?.x.unit ?? 'mm';
  const [ofNone, setOfNone] = useState(unit);
  const now = positions.length === 0 ? ofNone : unit;
  const { bolts, undrawn } = drawnPositions(positions);
  const put = (next: readonly FastenerPosition[]) => change({ positions: [...next] });
  const withUnit = (next: string) => {
    setOfNone(next);
    put(positions.map(({ x, y }) => ({ x: { ...x, unit: next }, y: { ...y, unit: next } })));
  };
  return (
    <fieldset className="group">
      <legend>{words.positions}</legend>
      <p className="note">{words.positionsWhat}</p>
      <FaultAt at="/positions" />
      {bolts.length === 0 ? null : (
        <div className="entry-map">
          <BoltMap width={340} backdrop="plain" stage={1} stages={Math.max(1, entry.stages.length)} bolts={bolts} />
        </div>
      )}
      {undrawn.length === 0 ? null : <p className="note">{words.undrawn(undrawn.join(', '))}</p>}
      <SelectField
        label={words.unit}
        value={now}
        options={unitsOfKind('length').map((one) => [one, symbolOf(one)] as const)}
        onChange={(next) => next !== null && withUnit(next)}
      />
      <PositionRows positions={positions} onChange={put} />
      <Button
        disabled={positions.length >= mostPositions}
        onClick={() => put([...positions, { x: { value: '', unit: now }, y: { value: '', unit: now } }])}
      >
        {words.addPosition}
      </Button>
      {now === 'mm' && undrawn.length === 0 ? (
        <details className="bolt-draw">
          <summary>{words.draw}</summary>
          <BoltSheet
            most={mostPositions}
            places={bolts}
            onPlaces={(places) => put(places.map((place) => keptOrNew(place, { bolts, positions })))}
          />
        </details>
      ) : null}
      <PastedPositions positions={positions} unit={now} onChange={put} />
    </fieldset>
  );
}

/** One that stood there already keeps its digits as they were keyed. */
function keptOrNew(
  { x, y }: PlaceOnSheet,
  of: { readonly bolts: readonly PlaceOnSheet[]; readonly positions: readonly FastenerPosition[] },
): FastenerPosition {
  const before = of.positions[of.bolts.findIndex((bolt) => bolt.x === x && bolt.y === y)];
  return before ?? { x: { value: String(x), unit: 'mm' }, y: { value: String(y), unit: 'mm' } };
}

interface RowsProps {
  readonly positions: readonly FastenerPosition[];
  readonly onChange: (positions: readonly FastenerPosition[]) => void;
}

function PositionRows({ positions, onChange }: RowsProps) {
  const words = useWords().specForms.fasteners;
  const set = (at: number, next: Partial<Record<'x' | 'y', string>>) =>
    onChange(
      positions.map(({ x, y }, index) =>
        index === at ? { x: { ...x, value: next.x ?? x.value }, y: { ...y, value: next.y ?? y.value } } : { x, y },
      ),
    );
  return (
    <ol className="entry-rows">
      {positions.map(({ x, y }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a fastener has nothing of its own but its place in the order
        <li key={index} className="entry-row">
          <b className="num entry-number">{index + 1}</b>
          <TextField
            label={words.x}
            at={`/positions/${index}/x`}
            value={x.value}
            onChange={(value) => set(index, { x: value })}
          />
          <TextField
            label={words.y}
            at={`/positions/${index}/y`}
            value={y.value}
            onChange={(value) => set(index, { y: value })}
          />
          <RowActs what={words.fastener(index + 1)} list={positions} at={index} onChange={onChange} />
        </li>
      ))}
    </ol>
  );
}

/** Coordinates out of a table take the place of what is above as soon as all of them can be read. */
function PastedPositions({ positions, unit, onChange }: RowsProps & { readonly unit: string }) {
  const words = useWords().specForms.fasteners;
  const [text, setText] = useState('');
  const [before, setBefore] = useState<readonly FastenerPosition[] | null>(null);
  const read = text.trim() === '' ? null : readPastedPositions(text, unit);
  const take = (next: string) => {
    setText(next);
    const pasted = next.trim() === '' ? null : readPastedPositions(next, unit);
    if (pasted === null || !pasted.ok) return;
    if (before === null) setBefore(positions);
    onChange(pasted.positions.map(({ x, y }) => ({ x: { value: x, unit }, y: { value: y, unit } })));
  };
  const putBack = () => {
    if (before !== null) onChange(before);
    setBefore(null);
    setText('');
  };
  const faults = read === null || read.ok ? [] : read.faults;
  return (
    <>
      <Field
        label={words.paste}
        hint={words.pasteHint}
        error={faults
          .slice(0, 6)
          .map(({ line, detail }) => words.line(line, detail))
          .join(' ')}
      >
        {(input) => (
          <textarea
            {...input}
            rows={4}
            spellCheck={false}
            className="num"
            value={text}
            onChange={({ target }) => take(target.value)}
          />
        )}
      </Field>
      {before === null ? null : (
        <p className="entry-placed" role="status">
          {words.placed(positions.length)} <Button onClick={putBack}>{words.putBack}</Button>
        </p>
      )}
    </>
  );
}
