import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { FaultList } from './fault-list.tsx';
import { type Draft, useKeeping } from './use-draft.ts';

type Layer = SpecSheetDocument['places'][number]['layer'];
const layers: readonly NonNullable<Layer>[] = ['cover', 'head', 'cylinder', 'case'];

/** Adds a place of the engine to the draft. */
export function PlaceDialog({ draft, onClose }: { readonly draft: Draft; readonly onClose: () => void }) {
  const { placeForm: words, layers: layerNames, close, form } = useWords().specs;
  const [entry, setEntry] = useState({ code: '', name: '', material: '', expansion: '' });
  const [layer, setLayer] = useState<Layer>(null);
  const [plated, setPlated] = useState(false);
  const keeping = useKeeping(draft);
  const text = (field: keyof typeof entry, hint?: string) => (
    <Field label={words[field]} {...(hint === undefined ? {} : { hint })}>
      {(input) => (
        <input
          {...input}
          required={field === 'code' || field === 'name'}
          value={entry[field]}
          onChange={({ target }) => setEntry({ ...entry, [field]: target.value })}
        />
      )}
    </Field>
  );
  const add = () => {
    const { code, name, material } = entry;
    const value = entry.expansion.trim();
    const expansion = value === '' ? null : { value, uncertainty: '0' };
    const place = { code: code.trim(), name: name.trim(), layer, material, expansion, plated };
    keeping.keep({ ...draft.document, places: [...draft.document.places, place] }, onClose);
  };
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <div className="pair">
          {text('code')}
          {text('name')}
          <Field label={words.layer}>
            {(input) => (
              <select
                {...input}
                value={layer ?? ''}
                onChange={({ target }) => setLayer(layers.find((one) => one === target.value) ?? null)}
              >
                <option value="">{words.noLayer}</option>
                {layers.map((one) => (
                  <option key={one} value={one}>
                    {layerNames[one]}
                  </option>
                ))}
              </select>
            )}
          </Field>
          {text('material')}
          {text('expansion', words.expansionHint)}
        </div>
        <label className="check">
          <input type="checkbox" checked={plated} onChange={({ target }) => setPlated(target.checked)} />
          {words.plated}
        </label>
        <FaultList error={keeping.error} title={form.wrong} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={keeping.busy}>
            {words.add}
          </Button>
          <Button onClick={onClose}>{close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
