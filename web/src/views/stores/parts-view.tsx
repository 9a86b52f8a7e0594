import { useState } from 'react';
import { useWords } from '../../words/words.tsx';
import { Desks } from './desks.tsx';
import { PartPanel } from './part-panel.tsx';
import './stores.css';
import './desks.css';

/** The parts desk: find one, and its whole life. */
export function PartsView() {
  const { stores: words } = useWords();
  const [looking, setLooking] = useState<{ search: string; partId: string | null }>({ search: '', partId: null });
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        <h1>{words.desks.parts}</h1>
        <PartPanel
          search={looking.search}
          partId={looking.partId}
          onSearch={(search) => setLooking({ search, partId: null })}
          onPart={(partId) => setLooking({ ...looking, partId })}
        />
      </div>
    </main>
  );
}
