import { useState } from 'react';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { Desks } from './desks.tsx';
import { OpeningDialog } from './opening-dialog.tsx';
import { PartFormDialog } from './part-form-dialog.tsx';
import { PartPanel } from './part-panel.tsx';
import { PriceListDialog } from './price-list-dialog.tsx';
import { BringButton, FileLink } from './store-files.tsx';
import './stores.css';
import './desks.css';

/** The parts desk: find one, and its whole life. */
export function PartsView() {
  const { stores: words, priceList, partForms, storeFiles } = useWords();
  const may = useMay('stores');
  const [doing, setDoing] = useState<'price list' | 'add' | 'opening' | null>(null);
  const close = () => setDoing(null);
  const [looking, setLooking] = useState<{ search: string; partId: string | null }>({ search: '', partId: null });
  const { done } = useWords().scan;
  useScan((scanned) => {
    if (scanned.kind !== 'part') return undefined;
    const { part, supersededBy } = scanned;
    setLooking({ search: part.number, partId: part.id });
    return {
      did: supersededBy === null ? done.partShown : done.partReplaced(supersededBy.number),
      undo: () => setLooking(looking),
    };
  });
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        <h1>{words.desks.parts}</h1>
        {may ? (
          <div className="kit-acts">
            <Button onClick={() => setDoing('add')}>{partForms.add}</Button>
            <Button onClick={() => setDoing('price list')}>{priceList.open}</Button>
            <Button onClick={() => setDoing('opening')}>{partForms.opening.open}</Button>
          </div>
        ) : null}
        <details className="files">
          <summary>{storeFiles.title}</summary>
          <div className="kit-acts">
            <BringButton what="parts" />
            <BringButton what="kits" />
            <BringButton what="vendors" />
            <FileLink name="parts" />
            <FileLink name="stock" />
            <FileLink name="prices" />
            <FileLink name="vendors" />
            <FileLink name="kits" />
            <FileLink name="movements" />
          </div>
        </details>
        <PartPanel
          search={looking.search}
          partId={looking.partId}
          bulk={may}
          onSearch={(search) => setLooking({ search, partId: null })}
          onPart={(partId) => setLooking({ ...looking, partId })}
        />
        {doing === 'price list' ? <PriceListDialog onClose={close} /> : null}
        {doing === 'opening' ? <OpeningDialog onClose={close} /> : null}
        {doing === 'add' ? (
          <PartFormDialog part={null} onClose={close} onDone={({ id }) => setLooking({ ...looking, partId: id })} />
        ) : null}
      </div>
    </main>
  );
}
