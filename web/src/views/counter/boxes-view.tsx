import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { PaperPage } from '../../app/paper-page.tsx';
import { useMay } from '../../app/session.tsx';
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
    <PaperPage
      words={words}
      query={list}
      back={
        <Link className="btn" to="/counter/$jobId" params={{ jobId }}>
          {words.back}
        </Link>
      }
    >
      {(data) => (
        <>
          {data.given === null && lead ? <BoxesForm list={data} /> : null}
          <BoxesPaper list={data} />
        </>
      )}
    </PaperPage>
  );
}
