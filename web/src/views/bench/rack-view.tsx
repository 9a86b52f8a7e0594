import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { RackInShop } from '#contracts/searches.ts';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { LabelButton } from '../labels/label-button.tsx';
import { HandsFrame } from './hands-frame.tsx';
import { RackPane } from './rack-pane.tsx';
import { rackQuery } from './tally-queries.ts';
import './procedure.css';
import './tally.css';

/** Where its pieces lie: a tray's own page, or beside the engine. */
function Where({ lying }: Pick<RackInShop, 'lying'>) {
  const { rack: words } = useWords().tally;
  return lying.map(({ tray }, index) => (
    <span key={tray?.id ?? 'engine'}>
      {index === 0 ? null : ', '}
      {tray === null ? (
        words.beside
      ) : (
        <Link to="/trays/$trayId" params={{ trayId: tray.id }}>
          {words.inTray(tray.name)}
        </Link>
      )}
    </span>
  ));
}

function RackBody({ rack }: { readonly rack: RackInShop }) {
  const { rack: words } = useWords().tally;
  const format = useFormat();
  const { job, closedAt } = rack;
  return (
    <main className="check">
      <h1>
        {words.rackOf(rack.name)}{' '}
        <span className="note">
          <Link to="/engines/$engineId" params={{ engineId: job.engineId }}>
            {job.family} <span className="num nowrap">{job.serial}</span>
          </Link>
          , {words.job(job.number)}
        </span>
      </h1>
      <p className={closedAt === null ? 'note' : 'hot'}>
        {closedAt !== null ? (
          words.closed(format.since(closedAt))
        ) : rack.lying.length === 0 ? (
          words.nowhere
        ) : (
          <>
            {words.itLies} <Where lying={rack.lying} />
          </>
        )}
      </p>
      <section className="racks" aria-labelledby="racks">
        <h2 id="racks">{words.title}</h2>
        <RackPane rack={rack} jobId={job.id} openingId={closedAt === null ? rack.openingId : null} />
      </section>
      <div>
        <LabelButton big labels={[{ kind: 'rack', id: rack.pieceId }]} />
      </div>
    </main>
  );
}

/** One set kept in order by its own address, to which its label leads: place by place, and what can be done with it. */
export function RackView() {
  const { rackId } = useParams({ from: '/racks/$rackId' });
  const { tally } = useWords();
  const { data, error, refetch } = useQuery(rackQuery(rackId));
  const title = data === undefined ? tally.rack.title : tally.rack.rackOf(data.name);
  return (
    <HandsFrame title={title} head={<b>{title}</b>}>
      {data !== undefined ? (
        <RackBody rack={data} />
      ) : error === null ? (
        <Skeleton label={tally.reading} lines={6} />
      ) : (
        <NotRead error={error} again={() => void refetch()} right="look" />
      )}
    </HandsFrame>
  );
}
