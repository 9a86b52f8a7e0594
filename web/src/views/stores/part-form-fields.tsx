import { useQuery } from '@tanstack/react-query';
import { useSession } from '../../app/session.tsx';
import { faultAt } from '../../app/write.ts';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { useWords } from '../../words/words.tsx';
import { familiesQuery } from '../counter/counter-queries.ts';
import { type PartEntry, reorderIsWrong, sumIsWrong } from './part-entry.ts';

interface FieldsProps {
  readonly entry: PartEntry;
  readonly change: (changed: Partial<PartEntry>) => void;
  readonly isNew: boolean;
  readonly error: Error | null;
}

type TextField = 'number' | 'name' | 'placeCode' | 'sizeClass' | 'grade' | 'price' | 'core' | 'reorderPoint';
type Tick = 'oneTime' | 'bySerial' | 'retired';

const units = ['piece', 'pair', 'set', 'ml', 'g', 'mm'] as const;

/** The fields of a part: what it is counted in, and whether by serial, is said once, when it is new. */
export function PartFormFields({ entry, change, isNew, error }: FieldsProps) {
  const { partForms: words } = useWords();
  const { currency } = useSession().shop;
  const families = useQuery(familiesQuery).data?.items ?? [];
  const text = (field: TextField, maxLength: number, more: { label: string; hint?: string; fault?: string }) => (
    <Field
      label={more.label}
      {...(more.hint === undefined ? {} : { hint: more.hint })}
      error={more.fault ?? faultAt(error, `/${field}`)}
    >
      {(input) => (
        <input
          {...input}
          maxLength={maxLength}
          autoComplete="off"
          inputMode={field === 'price' || field === 'core' ? 'decimal' : field === 'reorderPoint' ? 'numeric' : 'text'}
          value={entry[field]}
          onChange={({ target }) => change({ [field]: target.value })}
        />
      )}
    </Field>
  );
  const tick = (field: Tick) => (
    <label className="check">
      <input
        type="checkbox"
        checked={entry[field]}
        onChange={({ currentTarget }) => change({ [field]: currentTarget.checked })}
      />
      {words[field]}
    </label>
  );
  return (
    <>
      <div className="pair">
        {isNew ? text('number', 40, { label: words.number, hint: words.numberHint }) : null}
        {text('name', 120, { label: words.name })}
        <Field label={words.family} error={faultAt(error, '/familyId')}>
          {(input) => (
            <select {...input} value={entry.familyId} onChange={({ target }) => change({ familyId: target.value })}>
              <option value="">{words.everyFamily}</option>
              <NamedOptions of={families} />
            </select>
          )}
        </Field>
        {text('placeCode', 40, { label: words.place, hint: words.placeHint })}
        {text('sizeClass', 40, { label: words.sizeClass, hint: words.sizeClassHint })}
        {text('grade', 40, { label: words.grade })}
        {isNew ? (
          <Field label={words.unit}>
            {(input) => (
              <select
                {...input}
                value={entry.unit}
                onChange={({ target }) => change({ unit: units.find((unit) => unit === target.value) ?? 'piece' })}
              >
                {units.map((unit) => (
                  <option key={unit} value={unit}>
                    {words.units[unit]}
                  </option>
                ))}
              </select>
            )}
          </Field>
        ) : null}
        {text('price', 15, {
          label: words.price(currency),
          ...(sumIsWrong(entry.price, currency) ? { fault: words.priceWrong } : {}),
        })}
        {text('core', 15, {
          label: words.core(currency),
          hint: words.coreHint,
          ...(sumIsWrong(entry.core, currency) ? { fault: words.priceWrong } : {}),
        })}
        {text('reorderPoint', 5, {
          label: words.reorder,
          ...(reorderIsWrong(entry) ? { fault: words.reorderWrong } : {}),
        })}
      </div>
      {tick('oneTime')}
      {isNew ? tick('bySerial') : tick('retired')}
    </>
  );
}
