import { useState } from 'react';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { Desks } from './desks.tsx';
import { PartPanel } from './part-panel.tsx';
import { PriceListDialog } from './price-list-dialog.tsx';
import { BringButton, FileLink } from './store-files.tsx';
import './stores.css';
import './desks.css';

/** The parts desk: find one, and its whole life. */
export function PartsView() {
  const { stores: words, priceList, storeFiles } = useWords();
  const may = useMay('stores');
  const [taking, setTaking] = useState(false);
  const [looking, setLooking] = useState<{ search: string; partId: string | null }>({ search: '', partId: null });
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        <h1>{words.desks.parts}</h1>
        {may ? (
          <div className="kit-acts">
            <Button onClick={() => setTaking(true)}>{priceList.open}</Button>
          </div>
        ) : null}
        <details className="files">
          <summary>{storeFiles.title}</summary>
          <div className="kit-acts">
            <BringButton what="parts" />
            <BringButton what="kits" />
            <FileLink name="parts" />
            <FileLink name="stock" />
            <FileLink name="prices" />
            <FileLink name="kits" />
          </div>
        </details>
        <PartPanel
          search={looking.search}
          partId={looking.partId}
          onSearch={(search) => setLooking({ search, partId: null })}
          onPart={(partId) => setLooking({ ...looking, partId })}
        />
        {taking ? <PriceListDialog onClose={() => setTaking(false)} /> : null}
      </div>
    </main>
  );
}
