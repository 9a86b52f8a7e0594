import { unitsOfKind } from '#domain/units/unit-table.ts';
import { useWords } from '../../words/words.tsx';
import { type EntryProps, isOfTheBore, isOfTwo } from './dimension-entry.ts';
import { FigureField, SelectField, TextField } from './form-fields.tsx';
import type { PrintedDimension } from './printed.ts';

const methods: readonly PrintedDimension['method'][] = [
  'single',
  'maximum',
  'minimum',
  'range',
  'mean',
  'interval',
  'felt',
  'size',
  'out-of-round',
  'taper',
  'difference',
  'ratio',
  'stated',
];

/** How a dimension is worked out and judged; only the fields that its method has. */
export function MethodFields({ entry, change, document }: EntryProps) {
  const { specs: all } = useWords();
  const words = all.form;
  const others = document.dimensions
    .filter(({ code }) => code !== entry.code)
    .map(({ code, name }) => [code, name] as const);
  const other = (field: 'minuend' | 'subtrahend' | 'numerator' | 'denominator' | 'readingsOf', none: string) => (
    <SelectField
      label={words[field]}
      none={none}
      value={entry[field] ?? ''}
      options={others}
      onChange={(code) => change({ [field]: code })}
    />
  );
  const scaleKind = document.dimensions.find(({ code }) => code === entry.denominator)?.kind ?? entry.kind;
  const readsOthers = !isOfTwo(entry) && entry.method !== 'stated' && entry.method !== 'felt';
  return (
    <fieldset className="group pair">
      <SelectField
        label={words.method}
        value={entry.method}
        options={methods.map((method) => [method, all.how[method]] as const)}
        onChange={(method) => method !== null && change({ method })}
      />
      {isOfTheBore(entry) ? (
        <SelectField
          label={words.boreRule}
          value={entry.boreRule ?? 'per-level'}
          options={[
            ['per-level', all.perLevel],
            ['extremes', all.extremes],
          ]}
          onChange={(boreRule) => change({ boreRule })}
        />
      ) : null}
      {readsOthers ? other('readingsOf', words.ownReadings) : null}
      {entry.method === 'difference' ? other('minuend', words.choose) : null}
      {entry.method === 'difference' ? other('subtrahend', words.choose) : null}
      {entry.method === 'ratio' ? other('numerator', words.choose) : null}
      {entry.method === 'ratio' ? other('denominator', words.choose) : null}
      {entry.method === 'ratio' ? (
        <FigureField
          label={words.scale}
          figure={entry.scale}
          unit={unitsOfKind(scaleKind)[0] ?? ''}
          units={unitsOfKind(scaleKind)}
          onChange={(scale) => change({ scale })}
        />
      ) : null}
      {entry.method === 'stated' ? (
        <FigureField
          label={words.stated}
          figure={entry.stated}
          unit={entry.unit}
          units={unitsOfKind(entry.kind)}
          onChange={(stated) => change({ stated })}
        />
      ) : null}
      <TextField
        label={words.rule}
        hint={Object.keys(all.rules).concat('guard-factor-1.3').join(', ')}
        value={entry.rule}
        onChange={(rule) => change({ rule: rule as PrintedDimension['rule'] })}
      />
      <label className="check">
        <input type="checkbox" checked={entry.inside} onChange={({ target }) => change({ inside: target.checked })} />
        {words.inside}
      </label>
    </fieldset>
  );
}
