import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { EntryActs } from './entry-acts.tsx';
import { PlaceDialog } from './place-dialog.tsx';
import type { Draft } from './use-draft.ts';

/** The places of the engine: what sits there is fitted, measured and renewed. */
export function SheetPlaces({
  document,
  editing,
}: {
  readonly document: SpecSheetDocument;
  readonly editing: Draft | undefined;
}) {
  const { specs: words } = useWords();
  const [open, setOpen] = useState<number | null>(null);
  const { places } = document;
  return (
    <section>
      <header>
        <h2>{words.places}</h2>
        {editing === undefined ? null : <Button onClick={() => setOpen(places.length)}>{words.addPlace}</Button>}
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the table scrolls, so a keyboard has to reach it */}
      <section className="scroll-x" aria-label={words.places} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.place}</th>
              <th scope="col">{words.layer}</th>
              <th scope="col">{words.material}</th>
              <th scope="col">{words.expansion}</th>
              {editing === undefined ? null : (
                <td>
                  <span className="visually-hidden">{words.edit}</span>
                </td>
              )}
            </tr>
          </thead>
          <tbody>
            {places.map(({ code, name, layer, material, expansion, plated }, index) => (
              <tr key={code}>
                <td>
                  {name} <span className="note num">{code}</span>
                </td>
                <td>{layer === null ? '–' : words.layers[layer]}</td>
                <td>{[material, ...(plated ? [words.plated] : [])].filter(Boolean).join(', ') || '–'}</td>
                <td className="num">{expansion === null ? '–' : `${expansion.value} ± ${expansion.uncertainty}`}</td>
                {editing === undefined ? null : (
                  <td>
                    <EntryActs draft={editing} list="places" at={index} onEdit={() => setOpen(index)} />
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {open === null || editing === undefined ? null : (
        <PlaceDialog key={open} draft={editing} at={open} onClose={() => setOpen(null)} />
      )}
    </section>
  );
}
