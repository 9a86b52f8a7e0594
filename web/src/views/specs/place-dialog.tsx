import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { useWords } from '../../words/words.tsx';
import { EntryDialog } from './entry-dialog.tsx';
import { SelectField, TextField } from './form-fields.tsx';
import { without } from './list-order.ts';
import type { Draft } from './use-draft.ts';

type Place = SpecSheetDocument['places'][number];
const layers = ['cover', 'head', 'cylinder', 'case'] as const satisfies readonly NonNullable<Place['layer']>[];

const newPlace: Place = { code: '', name: '', layer: null, material: '', expansion: null, plated: false };

interface Props {
  readonly draft: Draft;
  /** Its place in the list; that after the last: a new one. */
  readonly at: number;
  readonly onClose: () => void;
}

/** One place of the engine in the draft. What is measured there keeps it on the sheet, and its code as it is. */
export function PlaceDialog({ draft, at, onClose }: Props) {
  const { specs, specForms: all } = useWords();
  const words = specs.placeForm;
  const { document } = draft;
  const before = document.places[at];
  const [entry, setEntry] = useState(before ?? newPlace);
  const [expansion, setExpansion] = useState(before?.expansion ?? { value: '', uncertainty: '' });
  const change = (next: Partial<Place>) => setEntry({ ...entry, ...next });
  const measured = document.dimensions.filter(({ place }) => place === before?.code).map(({ name }) => name);
  const { value, uncertainty } = expansion;
  const kept: Place = {
    ...entry,
    code: entry.code.trim(),
    name: entry.name.trim(),
    expansion:
      value.trim() === '' && uncertainty.trim() === ''
        ? null
        : { value: value.trim(), uncertainty: uncertainty.trim() === '' ? '0' : uncertainty.trim() },
  };
  return (
    <EntryDialog
      draft={draft}
      title={before === undefined ? words.title : words.editTitle(before.name)}
      base={`/places/${at}`}
      kept={() => ({ ...document, places: [...document.places.slice(0, at), kept, ...document.places.slice(at + 1)] })}
      removal={
        before === undefined || measured.length > 0
          ? undefined
          : { words: words.remove, document: { ...document, places: without(document.places, at) } }
      }
      onClose={onClose}
    >
      <div className="pair">
        {measured.length > 0 ? (
          <p>
            {all.code}: <span className="num">{entry.code}</span>
          </p>
        ) : (
          <TextField
            label={all.code}
            at="/code"
            required
            hint={words.codeHint}
            value={entry.code}
            onChange={(code) => change({ code })}
          />
        )}
        <TextField label={all.name} at="/name" required value={entry.name} onChange={(name) => change({ name })} />
        <SelectField
          label={words.layer}
          at="/layer"
          none={words.noLayer}
          value={entry.layer ?? ''}
          options={layers.map((layer) => [layer, specs.layers[layer]] as const)}
          onChange={(layer) => change({ layer })}
        />
        <TextField
          label={words.material}
          at="/material"
          value={entry.material}
          onChange={(material) => change({ material })}
        />
        <TextField
          label={words.expansion}
          at="/expansion/value"
          hint={words.expansionHint}
          value={value}
          onChange={(text) => setExpansion({ ...expansion, value: text })}
        />
        <TextField
          label={words.uncertainty}
          at="/expansion/uncertainty"
          hint={words.uncertaintyHint}
          value={uncertainty}
          onChange={(text) => setExpansion({ ...expansion, uncertainty: text })}
        />
      </div>
      <label className="check">
        <input type="checkbox" checked={entry.plated} onChange={({ target }) => change({ plated: target.checked })} />
        {words.plated}
      </label>
      {measured.length === 0 ? null : <p className="note">{words.used(measured)}</p>}
    </EntryDialog>
  );
}
