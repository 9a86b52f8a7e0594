import type { ReactNode } from 'react';
import { Field } from '../../../kit/field.tsx';
import { useWords } from '../../../words/words.tsx';
import type { Keyed } from './use-keyed.ts';

interface OneProps {
  readonly name: string;
  readonly label: ReactNode;
  readonly keyed: Keyed;
  readonly put: (more: Keyed) => void;
  readonly error?: string | undefined;
  readonly hint?: string;
  readonly unit?: string;
}

const wrong = (error: string | undefined) => (error === undefined ? {} : { error });
const hinted = (hint: string | undefined) => (hint === undefined ? {} : { hint });

/** One figure or word, what is wrong with it beside it. */
export function TextField({ name, label, keyed, put, error, hint, unit }: OneProps) {
  return (
    <Field label={label} {...wrong(error)} {...hinted(hint)}>
      {(props) => (
        <div className="reckon-input">
          <input
            {...props}
            className="num"
            autoComplete="off"
            spellCheck={false}
            maxLength={60}
            value={keyed[name] ?? ''}
            onChange={({ target }) => put({ [name]: target.value })}
          />
          {unit === undefined ? null : <span className="reckon-unit">{unit}</span>}
        </div>
      )}
    </Field>
  );
}

/** A pasted list. */
const mostRows = 40;

/** As high as what stands in it: paper can't be scrolled. */
const rowsFor = (text: string | undefined, least: number): number =>
  Math.min(mostRows, Math.max(least, (text ?? '').split('\n').length));

export function ListField({ name, label, keyed, put, error, hint, rows = 6 }: OneProps & { readonly rows?: number }) {
  return (
    <Field label={label} {...wrong(error)} {...hinted(hint)}>
      {(props) => (
        <div className="reckon-input tall">
          <textarea
            {...props}
            className="num"
            rows={rowsFor(keyed[name], rows)}
            spellCheck={false}
            autoComplete="off"
            maxLength={20_000}
            value={keyed[name] ?? ''}
            onChange={({ target }) => put({ [name]: target.value })}
          />
        </div>
      )}
    </Field>
  );
}

interface ChoiceProps extends OneProps {
  readonly options: Readonly<Record<string, string>>;
}

export function ChoiceField({ name, label, keyed, put, error, hint, options }: ChoiceProps) {
  return (
    <Field label={label} {...wrong(error)} {...hinted(hint)}>
      {(props) => (
        <select {...props} value={keyed[name] ?? ''} onChange={({ target }) => put({ [name]: target.value })}>
          {Object.entries(options).map(([value, said]) => (
            <option key={value} value={value}>
              {said}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

interface Part {
  readonly name: string;
  readonly label: string;
  readonly options?: ChoiceProps['options'];
}

interface PartProps {
  readonly part: Part;
  readonly legend: string;
  readonly keyed: Keyed;
  readonly put: (more: Keyed) => void;
  readonly marks: { readonly 'aria-invalid'?: true; readonly 'aria-describedby'?: string };
}

function RowPart({ part: { name, label, options }, legend, keyed, put, marks }: PartProps) {
  const { loosePanes: words } = useWords();
  const shared = { ...marks, 'aria-label': words.partOf(label, legend), value: keyed[name] ?? '' };
  return options === undefined ? (
    <label>
      <span className="note">{label}</span>
      <input
        {...shared}
        className="num"
        autoComplete="off"
        maxLength={60}
        onChange={({ target }) => put({ [name]: target.value })}
      />
    </label>
  ) : (
    <label>
      <span className="note">{label}</span>
      <select {...shared} onChange={({ target }) => put({ [name]: target.value })}>
        {Object.entries(options).map(([value, said]) => (
          <option key={value} value={value}>
            {said}
          </option>
        ))}
      </select>
    </label>
  );
}

interface RowProps {
  readonly legend: string;
  readonly parts: readonly Part[];
  readonly keyed: Keyed;
  readonly put: (more: Keyed) => void;
  readonly error?: string | undefined;
  /** Which part the error is about; none: the whole row. */
  readonly wrongPart?: string | undefined;
  readonly onDrop?: (() => void) | undefined;
}

/** Several short fields in a line that belong together: a valve, a ring. */
export function FieldRow({ legend, parts, keyed, put, error, wrongPart, onDrop }: RowProps) {
  const { loosePanes: words } = useWords();
  const id = `row-${parts[0]?.name ?? legend}-error`;
  const marks = (name: string) =>
    error !== undefined && (wrongPart === undefined || wrongPart === name)
      ? { 'aria-invalid': true as const, 'aria-describedby': id }
      : {};
  return (
    <li className="pane-row">
      {parts.map((part) => (
        <RowPart key={part.name} part={part} legend={legend} keyed={keyed} put={put} marks={marks(part.name)} />
      ))}
      {onDrop === undefined ? null : (
        <button type="button" className="btn" aria-label={words.drop(legend)} onClick={onDrop}>
          ✕
        </button>
      )}
      {error === undefined ? null : (
        <p className="field-error" role="alert" id={id}>
          {error}
        </p>
      )}
    </li>
  );
}
