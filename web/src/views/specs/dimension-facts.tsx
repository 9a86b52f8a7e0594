import { quantityKinds } from '#domain/units/quantity.ts';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import type { EntryProps } from './dimension-entry.ts';
import { FigureField, SelectField, TextField } from './form-fields.tsx';

const decimals = ['0', '1', '2', '3', '4', '5', '6'] as const;

/** What a dimension is: where, of which kind, in which unit, and what its source says. */
export function DimensionFacts({ entry, change, document }: EntryProps) {
  const { form: words } = useWords().specs;
  const text = (field: 'name' | 'instrumentKind' | 'caution' | 'source' | 'page', label: string) => (
    <TextField label={label} value={entry[field]} onChange={(value) => change({ [field]: value })} />
  );
  const units = unitsOfKind(entry.kind);
  return (
    <fieldset className="group pair">
      <TextField
        label={words.code}
        hint={words.codeHint}
        required
        value={entry.code}
        onChange={(code) => change({ code })}
      />
      {text('name', words.name)}
      <SelectField
        label={words.place}
        none={words.choosePlace}
        value={entry.place}
        options={document.places.map(({ code, name }) => [code, name] as const)}
        onChange={(place) => change({ place: place ?? '' })}
      />
      <SelectField
        label={words.kind}
        value={entry.kind}
        options={quantityKinds.map((kind) => [kind, kind] as const)}
        onChange={(kind) => kind !== null && change({ kind, unit: unitsOfKind(kind)[0] ?? '' })}
      />
      <SelectField
        label={words.unit}
        value={units.find((unit) => unit === entry.unit) ?? ''}
        options={units.map((unit) => [unit, symbolOf(unit) || unit] as const)}
        onChange={(unit) => unit !== null && change({ unit })}
      />
      <SelectField
        label={words.decimals}
        value={decimals.find((one) => one === String(entry.decimals)) ?? ''}
        options={decimals.map((one) => [one, one] as const)}
        onChange={(one) => change({ decimals: Number(one) })}
      />
      <FigureField
        label={words.nominal}
        figure={entry.nominal}
        unit={entry.unit}
        units={units}
        onChange={(next) => change({ nominal: { ...entry.nominal, ...next } })}
      />
      <FigureField
        label={words.span}
        figure={entry.plausibleSpan}
        unit={entry.unit}
        units={units}
        onChange={(next) => change({ plausibleSpan: { ...entry.plausibleSpan, ...next } })}
      />
      {text('instrumentKind', words.instrument)}
      {text('source', words.source)}
      {text('page', words.page)}
      {text('caution', words.caution)}
    </fieldset>
  );
}
