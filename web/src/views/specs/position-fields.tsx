import { unitsOfKind } from '#domain/units/unit-table.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type EntryProps, isOfTheBore } from './dimension-entry.ts';
import { FigureField, TextField } from './form-fields.tsx';
import type { PrintedPosition } from './printed.ts';
import { RowActs } from './row-acts.tsx';

const levelOf = (text: string): number | null => (/^\d{1,2}$/.test(text.trim()) ? Number(text) : null);

/** Where a dimension is measured; a bore's positions have a height and an axis. */
export function PositionFields({ entry, change }: EntryProps) {
  const {
    specs: { form: words },
    specForms: forms,
  } = useWords();
  const { positions } = entry;
  const set = (index: number, next: Partial<PrintedPosition>) =>
    change({ positions: positions.map((one, at) => (at === index ? { ...one, ...next } : one)) });
  const levelled = isOfTheBore(entry) || positions.some(({ level, axis }) => level !== null || axis !== null);
  return (
    <fieldset className="group">
      <legend>{words.positions}</legend>
      {positions.map((position, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a code is changed while it is typed
        <div key={index} className="position-line pair">
          <TextField
            label={words.positionCode}
            at={`/positions/${index}/code`}
            value={position.code}
            onChange={(code) => set(index, { code })}
          />
          <TextField
            label={words.positionLabel}
            at={`/positions/${index}/label`}
            value={position.label}
            onChange={(label) => set(index, { label })}
          />
          {levelled ? (
            <>
              <TextField
                label={words.level}
                at={`/positions/${index}/level`}
                value={position.level === null ? '' : String(position.level)}
                onChange={(text) => set(index, { level: levelOf(text) })}
              />
              <TextField
                label={words.axis}
                at={`/positions/${index}/axis`}
                value={position.axis ?? ''}
                onChange={(text) => set(index, { axis: text === '' ? null : text })}
              />
            </>
          ) : null}
          {levelled ? (
            <FigureField
              label={forms.height}
              at={`/positions/${index}/height`}
              figure={position.height}
              unit="mm"
              units={unitsOfKind('length')}
              onChange={(height) => set(index, { height: height.value === '' ? null : height })}
            />
          ) : null}
          <RowActs
            what={forms.position(position.code)}
            list={positions}
            at={index}
            onChange={(next) => change({ positions: next })}
          />
        </div>
      ))}
      <Button
        onClick={() =>
          change({
            positions: [
              ...positions,
              { code: String(positions.length + 1), label: '', level: null, axis: null, height: null },
            ],
          })
        }
      >
        {words.addPosition}
      </Button>
    </fieldset>
  );
}
