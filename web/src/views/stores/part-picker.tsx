import { useQuery } from '@tanstack/react-query';
import { useDeferredValue, useState } from 'react';
import type { Part, PartName } from '#contracts/parts.ts';
import { Button } from '../../kit/button.tsx';
import { SearchField } from '../../kit/search-field.tsx';
import { useWords } from '../../words/words.tsx';
import { partsQuery } from './stores-queries.ts';
import './found.css';

interface PickerProps {
  readonly chosen: PartName | null;
  readonly onChoose: (part: PartName | null) => void;
  /** While somebody counts: nothing of what the books say. */
  readonly blind?: boolean;
}

/** So many stand below the field; a few letters more leave fewer. */
const mostShown = 8;

/** One part out of all, by a few letters of it. */
export function PartPicker({ chosen, onChoose, blind = false }: PickerProps) {
  const { picker: words } = useWords().stores;
  const [text, setText] = useState('');
  const wanted = useDeferredValue(text.trim());
  const { data } = useQuery({ ...partsQuery(wanted), enabled: chosen === null && wanted !== '' });
  if (chosen !== null) {
    return (
      <div className="picked">
        <span>
          <b>{chosen.name}</b> <span className="note num">{chosen.number}</span>
        </span>
        <Button onClick={() => onChoose(null)}>{words.other}</Button>
      </div>
    );
  }
  const kept: readonly Part[] = wanted === '' ? [] : (data?.items ?? []).filter(({ retired }) => !retired);
  const found = kept.slice(0, mostShown);
  const more = wanted !== '' && (kept.length > mostShown || (data?.next ?? null) !== null);
  return (
    <div className="picker">
      <SearchField label={words.label} hint={words.hint} most={60} value={text} onChange={setText} />
      {wanted !== '' && data !== undefined && found.length === 0 ? <p className="note">{words.none}</p> : null}
      <ul>
        {found.map(({ id, number, name, available }) => (
          <li key={id}>
            <button
              type="button"
              className="found"
              aria-label={words.choose(name)}
              onClick={() => onChoose({ id, number, name })}
            >
              <b>{name}</b> <span className="note num">{number}</span>
              {blind ? null : <span className="note num">{words.available(available)}</span>}
            </button>
          </li>
        ))}
      </ul>
      {more ? <p className="note">{words.more}</p> : null}
    </div>
  );
}
