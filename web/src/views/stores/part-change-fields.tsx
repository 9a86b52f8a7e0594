import { useQuery } from '@tanstack/react-query';
import type { ChangeParts } from '#contracts/part-changes.ts';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { useWords } from '../../words/words.tsx';
import { vendorsQuery } from './stores-queries.ts';

/** As typed; an empty one stays as it is. */
export interface ChangeEntry {
  readonly reorderPoint: string;
  readonly vendorId: string;
  readonly sizeClass: string;
  readonly grade: string;
  readonly placeCode: string;
  readonly oneTime: '' | 'yes' | 'no';
}

export const nothingTyped: ChangeEntry = {
  reorderPoint: '',
  vendorId: '',
  sizeClass: '',
  grade: '',
  placeCode: '',
  oneTime: '',
};
const noVendor = 'none';
const texts = ['sizeClass', 'grade', 'placeCode'] as const;

export const isLevelWrong = ({ reorderPoint }: ChangeEntry): boolean =>
  reorderPoint !== '' && !(/^\d{1,6}$/.test(reorderPoint) && Number(reorderPoint) <= 100_000);

export const isNothing = (entry: ChangeEntry): boolean => Object.values(entry).every((typed) => typed.trim() === '');

export function changeOf(entry: ChangeEntry, partIds: readonly string[]): ChangeParts {
  const said = texts.filter((name) => entry[name].trim() !== '').map((name) => [name, entry[name].trim()] as const);
  return {
    partIds: [...partIds],
    ...Object.fromEntries(said),
    ...(entry.reorderPoint === '' ? {} : { reorderPoint: Number(entry.reorderPoint) }),
    ...(entry.oneTime === '' ? {} : { oneTime: entry.oneTime === 'yes' }),
    ...(entry.vendorId === '' ? {} : { vendorId: entry.vendorId === noVendor ? null : entry.vendorId }),
  };
}

interface FieldsProps {
  readonly entry: ChangeEntry;
  readonly change: (changed: Partial<ChangeEntry>) => void;
}

export function PartChangeFields({ entry, change }: FieldsProps) {
  const { partChanges: words } = useWords();
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  return (
    <div className="pair">
      <Field label={words.reorderPoint} error={isLevelWrong(entry) ? words.whole : undefined}>
        {(input) => (
          <input
            {...input}
            inputMode="numeric"
            maxLength={6}
            placeholder={words.asItIs}
            value={entry.reorderPoint}
            onChange={({ target }) => change({ reorderPoint: target.value.trim() })}
          />
        )}
      </Field>
      <Field label={words.vendor}>
        {(input) => (
          <select {...input} value={entry.vendorId} onChange={({ target }) => change({ vendorId: target.value })}>
            <option value="">{words.asItIs}</option>
            <option value={noVendor}>{words.lastOne}</option>
            <NamedOptions of={vendors} />
          </select>
        )}
      </Field>
      {texts.map((name) => (
        <Field key={name} label={words[name]}>
          {(input) => (
            <input
              {...input}
              maxLength={40}
              placeholder={words.asItIs}
              value={entry[name]}
              onChange={({ target }) => change({ [name]: target.value })}
            />
          )}
        </Field>
      ))}
      <Field label={words.oneTime}>
        {(input) => (
          <select
            {...input}
            value={entry.oneTime}
            onChange={({ target: { value } }) => change({ oneTime: value === 'yes' || value === 'no' ? value : '' })}
          >
            <option value="">{words.asItIs}</option>
            <option value="yes">{words.yes}</option>
            <option value="no">{words.no}</option>
          </select>
        )}
      </Field>
    </div>
  );
}
