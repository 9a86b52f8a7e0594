import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type EntryProps, isOfTheBore } from './dimension-entry.ts';
import { TextField } from './form-fields.tsx';
import type { PrintedPosition } from './printed.ts';

const levelOf = (text: string): number | null => (/^\d{1,2}$/.test(text.trim()) ? Number(text) : null);

/** Where a dimension is measured; a bore's positions have a height and an axis. */
export function PositionFields({ entry, change }: EntryProps) {
  const { form: words } = useWords().specs;
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
          <TextField label={words.positionCode} value={position.code} onChange={(code) => set(index, { code })} />
          <TextField label={words.positionLabel} value={position.label} onChange={(label) => set(index, { label })} />
          {levelled ? (
            <>
              <TextField
                label={words.level}
                value={position.level === null ? '' : String(position.level)}
                onChange={(text) => set(index, { level: levelOf(text) })}
              />
              <TextField
                label={words.axis}
                value={position.axis ?? ''}
                onChange={(text) => set(index, { axis: text === '' ? null : text })}
              />
            </>
          ) : null}
          <Button onClick={() => change({ positions: positions.filter((_, at) => at !== index) })}>
            {words.removePosition(position.code)}
          </Button>
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
