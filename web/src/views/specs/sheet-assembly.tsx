import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { torqueNotes } from '#domain/spec-sheet/torque-notes.ts';
import { BoltMap } from '../../drawings/bolt-map.tsx';
import { RingClock } from '../../drawings/ring-clock.tsx';
import { Button } from '../../kit/button.tsx';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { EntryActs } from './entry-acts.tsx';
import { FastenersDialog } from './fasteners-dialog.tsx';
import { ProofDialog } from './proof-dialog.tsx';
import { facesOf, ringAims, zonesInDegrees } from './ring-aims.ts';
import { RingsDialog } from './rings-dialog.tsx';
import { SheetValves } from './sheet-valves.tsx';
import { TorqueNotes } from './torque-notes.tsx';
import type { Draft } from './use-draft.ts';

interface Part {
  readonly document: SpecSheetDocument;
  /** The draft, where it may be changed. */
  readonly editing: Draft | undefined;
}

/** What the sheet says of putting the engine together and proving it. */
export function SheetAssembly({ document, editing }: Part) {
  return (
    <>
      <Fasteners document={document} editing={editing} />
      <div className="two">
        <Rings document={document} editing={editing} />
        <SheetValves document={document} editing={editing} />
      </div>
      <Proofs document={document} editing={editing} />
    </>
  );
}

function Fasteners({ document, editing }: Part) {
  const { specs: words, specForms: forms } = useWords();
  const [open, setOpen] = useState<number | null>(null);
  const { fasteners } = document;
  if (fasteners.length === 0 && editing === undefined) return null;
  return (
    <section>
      <header>
        <h2>{words.fasteners}</h2>
        {editing === undefined ? null : (
          <Button onClick={() => setOpen(fasteners.length)}>{forms.fasteners.add}</Button>
        )}
      </header>
      {fasteners.length === 0 ? <p className="note">{forms.fasteners.none}</p> : null}
      <div className="sets">
        {fasteners.map((set, index) => (
          <article key={set.code} className="set">
            <BoltMap
              width={260}
              backdrop="plain"
              stage={1}
              stages={set.stages.length}
              bolts={set.positions.map(({ x, y }, index) => ({
                id: String(index),
                number: String(index + 1),
                x: Number(x.value),
                y: Number(y.value),
                stagesDone: 0,
              }))}
            />
            <div>
              <h3>{set.name}</h3>
              <p className="num">
                <b>
                  {words.stages(
                    set.stages
                      .map(({ torque, angle }) => torque ?? angle)
                      .map((one) => (one === null ? '' : quantityText(one)))
                      .join(', '),
                  )}
                </b>
              </p>
              <p className="note">
                {[set.thread, set.propertyClass, set.condition, set.tool, set.reuse].filter(Boolean).join(' · ')}
              </p>
              <p className="note">{[set.source, set.page].filter(Boolean).join(', ')}</p>
              <TorqueNotes notes={torqueNotes({ fasteners: [set] })} />
              {editing === undefined ? null : (
                <EntryActs draft={editing} list="fasteners" at={index} onEdit={() => setOpen(index)} />
              )}
            </div>
          </article>
        ))}
      </div>
      {open === null || editing === undefined ? null : (
        <FastenersDialog key={open} draft={editing} at={open} onClose={() => setOpen(null)} />
      )}
    </section>
  );
}

function Rings({ document, editing }: Part) {
  const { specs: words, specForms: forms } = useWords();
  const [open, setOpen] = useState(false);
  const { rings, ringZones, ringSeparation, railOffset } = document;
  const aims = ringAims(document);
  if (rings.length === 0 && editing === undefined) return null;
  return (
    <section className="rings">
      <header>
        <h2>{words.rings}</h2>
        {editing === undefined ? null : (
          <Button onClick={() => setOpen(true)}>{rings.length === 0 ? forms.rings.add : forms.rings.edit}</Button>
        )}
      </header>
      {rings.length === 0 ? (
        <p className="note">{forms.rings.none}</p>
      ) : (
        <RingClock
          size={300}
          gaps={rings.map(({ name }, index) => ({
            mark: String(index + 1),
            name,
            angle: aims[index]?.angle ?? null,
          }))}
          forbidden={zonesInDegrees(document)}
        />
      )}
      <ul>
        {rings.map((ring, index) => (
          <li key={ring.code}>
            {ring.name} <b className="num">{aims[index] === null ? '' : words.ringAt(aims[index]?.angle ?? 0)}</b>{' '}
            <span className="note">{words.ringFacts(aims[index]?.by ?? 'none', ring.mark ?? '', facesOf(ring))}</span>
          </li>
        ))}
        {ringZones.map(({ from, to, reason }) => (
          <li key={`${from.value} ${to.value}`} className="note">
            {words.fromTo(quantityText(from), quantityText(to))}: {reason}
          </li>
        ))}
        {ringSeparation === null ? null : <li className="note">{words.ringsApart(quantityText(ringSeparation))}</li>}
        {railOffset === null || railOffset === undefined ? null : (
          <li className="note">{words.railsApart(quantityText(railOffset))}</li>
        )}
      </ul>
      {open && editing !== undefined ? <RingsDialog draft={editing} onClose={() => setOpen(false)} /> : null}
    </section>
  );
}

function Proofs({ document, editing }: Part) {
  const { specs: words, specForms: forms } = useWords();
  const [open, setOpen] = useState<number | null>(null);
  const { proofs } = document;
  if (proofs.length === 0 && editing === undefined) return null;
  return (
    <section>
      <header>
        <h2>{words.proofs}</h2>
        {editing === undefined ? null : <Button onClick={() => setOpen(proofs.length)}>{forms.proofs.add}</Button>}
      </header>
      {proofs.length === 0 ? <p className="note">{forms.proofs.none}</p> : null}
      <ul className="proofs">
        {proofs.map(({ code, name, words: how, caution }, index) => (
          <li key={code}>
            <b>{name}</b> {how}
            {caution === '' ? null : <p className="caution">{caution}</p>}
            {editing === undefined ? null : (
              <EntryActs draft={editing} list="proofs" at={index} onEdit={() => setOpen(index)} />
            )}
          </li>
        ))}
      </ul>
      {open === null || editing === undefined ? null : (
        <ProofDialog key={open} draft={editing} at={open} onClose={() => setOpen(null)} />
      )}
    </section>
  );
}
