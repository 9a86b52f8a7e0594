import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Button } from '../../kit/button.tsx';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { EntryActs } from './entry-acts.tsx';
import type { Draft } from './use-draft.ts';
import { ValveDialog } from './valve-dialog.tsx';

interface Props {
  readonly document: SpecSheetDocument;
  /** The draft, where it may be changed. */
  readonly editing: Draft | undefined;
}

/** Each valve's wanted lash, and what it is adjusted by. */
export function SheetValves({ document, editing }: Props) {
  const { specs: words, specForms: forms } = useWords();
  const [open, setOpen] = useState<number | null>(null);
  const { valves } = document;
  if (valves.length === 0 && editing === undefined) return null;
  return (
    <section>
      <header>
        <h2>{words.valves}</h2>
        {editing === undefined ? null : <Button onClick={() => setOpen(valves.length)}>{forms.valves.add}</Button>}
      </header>
      {valves.length === 0 ? <p className="note">{forms.valves.none}</p> : null}
      <div className="scroll-x" hidden={valves.length === 0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.valves}</th>
              <th scope="col">{words.wanted}</th>
              <th scope="col">{words.adjuster}</th>
            </tr>
          </thead>
          <tbody>
            {valves.map(({ code, name, wanted, adjuster, shimDiameter, shimSizes, screwPitch }, index) => (
              <tr key={code}>
                <td>
                  {name}
                  {editing === undefined ? null : (
                    <EntryActs draft={editing} list="valves" at={index} onEdit={() => setOpen(index)} />
                  )}
                </td>
                <td className="num">{quantityText(wanted)}</td>
                <td>
                  {adjuster}
                  <span className="note num line">
                    {[
                      ...(shimDiameter === null ? [] : [`⌀ ${quantityText(shimDiameter)}`]),
                      ...(shimSizes === null ? [] : [words.fromTo(shimSizes.low.value, quantityText(shimSizes.high))]),
                      ...(screwPitch === null ? [] : [quantityText(screwPitch)]),
                    ].join(', ')}
                  </span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {open === null || editing === undefined ? null : (
        <ValveDialog key={open} draft={editing} at={open} onClose={() => setOpen(null)} />
      )}
    </section>
  );
}
