import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type Entry, type SizePart, type SizeRow, sizeParts, sizeRows, sizeText } from './entries.ts';

interface SizesProps {
  readonly name: string;
  readonly entry: Entry;
  readonly error: string | undefined;
  readonly change: (entry: Entry) => void;
}

const empty: SizeRow = { name: '', bore: '', boreMost: '', pistonLeast: '', pistonMost: '' };

/** The sizes to compare, a line for each: bore and piston from least to most. */
export function SizesField({ name, entry, error, change }: SizesProps) {
  const { looseBench: words } = useWords();
  const typed = sizeRows(entry.text);
  const rows = typed.length === 0 ? [empty] : typed;
  const put = (next: readonly SizeRow[]) => change({ ...entry, text: sizeText(next) });
  const set = (at: number, part: SizePart, text: string) =>
    put(rows.map((row, index) => (index === at ? { ...row, [part]: text } : row)));
  const called = (row: SizeRow, index: number) => (row.name.trim() === '' ? String(index + 1) : row.name.trim());
  return (
    <fieldset className="reckon-sizes">
      <legend>{name}</legend>
      {error === undefined ? null : (
        <p className="field-error" role="alert">
          {error}
        </p>
      )}
      <ol>
        {rows.map((row, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place alone
          <li key={index}>
            {sizeParts.map((part) => (
              <label key={part}>
                <span className="note">{words.size[part]}</span>
                <input
                  className="num"
                  autoComplete="off"
                  maxLength={part === 'name' ? 60 : 40}
                  aria-label={words.oneSize(called(row, index), words.size[part])}
                  value={row[part]}
                  onChange={({ target }) => set(index, part, target.value)}
                />
              </label>
            ))}
            <Button
              aria-label={words.dropSize(called(row, index))}
              disabled={rows.length === 1 && entry.text === ''}
              onClick={() => put(rows.filter((_, at) => at !== index))}
            >
              ✕
            </Button>
          </li>
        ))}
      </ol>
      <div className="reckon-sizes-foot">
        <Button onClick={() => put([...rows, empty])}>{words.addSize}</Button>
        <select
          aria-label={words.unitOf(name)}
          value={entry.unit}
          onChange={({ target }) => change({ ...entry, unit: target.value })}
        >
          <option value="mm">mm</option>
          <option value="in">in</option>
        </select>
      </div>
    </fieldset>
  );
}
