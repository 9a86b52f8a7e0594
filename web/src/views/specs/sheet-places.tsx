import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
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
  const [adding, setAdding] = useState(false);
  return (
    <section>
      <header>
        <h2>{words.places}</h2>
        {editing === undefined ? null : <Button onClick={() => setAdding(true)}>{words.addPlace}</Button>}
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
            </tr>
          </thead>
          <tbody>
            {document.places.map(({ code, name, layer, material, expansion, plated }) => (
              <tr key={code}>
                <td>
                  {name} <span className="note num">{code}</span>
                </td>
                <td>{layer === null ? '–' : words.layers[layer]}</td>
                <td>{[material, ...(plated ? [words.plated] : [])].filter(Boolean).join(', ') || '–'}</td>
                <td className="num">{expansion === null ? '–' : `${expansion.value} ± ${expansion.uncertainty}`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {adding && editing !== undefined ? <PlaceDialog draft={editing} onClose={() => setAdding(false)} /> : null}
    </section>
  );
}
