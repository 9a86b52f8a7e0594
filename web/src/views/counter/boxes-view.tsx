import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { BoxesForm } from './boxes-form.tsx';
import { BoxesPaper } from './boxes-paper.tsx';
import { packingListQuery } from './counter-queries.ts';
import '../sheet/sheet.css';
import '../custody/custody.css';

/** An engine whose owner declined goes home in boxes: counted here, and the list of it as it will be on paper. */
export function BoxesView() {
  const { boxes: words } = useWords();
  const { jobId } = useParams({ from: '/packing-lists/$jobId' });
  const list = useQuery(packingListQuery(jobId));
  const lead = useMay('lead');
  return (
    <main className="sheet-page">
      <nav className="sheet-acts no-print" aria-label={words.title}>
        <Link className="btn" to="/counter/$jobId" params={{ jobId }}>
          {words.back}
        </Link>
        <Button kind="main" disabled={list.data === undefined} onClick={() => window.print()}>
          {words.print}
        </Button>
      </nav>
      {list.isError && list.data === undefined ? (
        <Failed error={list.error} again={() => void list.refetch()} />
      ) : list.data === undefined ? (
        <Skeleton label={words.reading} lines={12} />
      ) : (
        <>
          {list.data.given === null && lead ? <BoxesForm list={list.data} /> : null}
          <BoxesPaper list={list.data} />
        </>
      )}
    </main>
  );
}
