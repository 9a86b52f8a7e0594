import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { Floor } from '#contracts/floor.ts';
import { read } from '../../app/api.ts';
import { ServerClock } from '../../app/now.tsx';
import { useMay } from '../../app/session.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { Lists } from './lists.tsx';
import { Plan } from './plan.tsx';
import { Voices } from './voices.tsx';
import './floor.css';
import './floor-lists.css';

function JumpLinks({ floor }: { readonly floor: Floor }) {
  const words = useWords().floor;
  const undecided = floor.pastOrUndecided.some(({ obligation }) => obligation?.settled !== true);
  return (
    <nav className="jump" aria-label={words.jump}>
      <a href="#open">{words.openCount(floor.openNow.length)}</a>
      <a href="#parts">{words.partsCount(floor.waitingForParts.length)}</a>
      <a href="#past" className={undecided ? 'hot' : undefined}>
        {words.pastCount(floor.pastOrUndecided.length)}
      </a>
    </nav>
  );
}

function Counts({ floor: { counts, shop } }: { readonly floor: Floor }) {
  const words = useWords().floor;
  const figure = (count: number, hot: boolean) => <span className={hot && count > 0 ? 'num hot' : 'num'}>{count}</span>;
  return (
    <TitleBlock
      columns={6}
      facts={[
        {
          name: words.shop,
          value: (
            <>
              {shop.name}
              {shop.figuresInvented ? <span className="note"> {words.invented}</span> : null}
            </>
          ),
        },
        {
          name: words.engines,
          value: (
            <span className="num">
              {counts.engines}
              {counts.outside === 0 ? '' : `, ${words.ofThemOutside(counts.outside)}`}
            </span>
          ),
        },
        { name: words.open, value: figure(counts.open, false) },
        { name: words.uncoveredCount, value: figure(counts.uncovered, true) },
        { name: words.handovers, value: figure(counts.handoversOffered, false) },
        { name: words.nobody, value: figure(counts.heldByNobody, true) },
      ]}
    />
  );
}

/** The walls stand before what is in them is known, so that nothing jumps. */
function FloorSkeleton() {
  const words = useWords().floor;
  const tile = (place: number) => (
    <section key={place} className="bay">
      <Skeleton label={place === 0 ? words.reading : ''} lines={4} />
    </section>
  );
  return (
    <main className="floor" aria-busy="true">
      <section className="plan">
        <div className="plan-head">
          <h1>{words.title}</h1>
        </div>
        <div className="walls waiting" data-columns={3}>
          {[0, 1, 2, 3, 4, 5].map(tile)}
        </div>
      </section>
      <aside className="lists raised">
        <Skeleton label="" lines={12} />
      </aside>
    </main>
  );
}

function NobodyIn() {
  const words = useWords().floor;
  const counter = useMay('counter');
  return (
    <Empty
      title={words.empty}
      act={
        counter ? (
          <Link to="/counter" className="btn main">
            {words.takeIn}
          </Link>
        ) : undefined
      }
    >
      {words.emptyWhy}
    </Empty>
  );
}

/** The shop as it is at this moment, and the three questions one asks of it. */
export function FloorView() {
  const words = useWords().floor;
  const format = useFormat();
  const { data, error, isPending, refetch, dataUpdatedAt } = useQuery({
    queryKey: ['floor'],
    queryFn: ({ signal }) => read<Floor>('/floor', signal),
    meta: { follows: 'every change' },
  });
  if (isPending) return <FloorSkeleton />;
  if (data === undefined)
    return (
      <main className="floor-refused">
        <NotRead error={error} again={() => void refetch()} right="look" />
      </main>
    );
  return (
    <ServerClock asOf={data.asOf} readAt={dataUpdatedAt}>
      <main className="floor">
        <section className="plan" aria-label={words.plan}>
          <div className="plan-head">
            <h1>{words.title}</h1>
            <p className="note num">
              {format.day(data.today)}, {format.time(data.asOf)}
            </p>
          </div>
          <JumpLinks floor={data} />
          {data.engines.length === 0 ? <NobodyIn /> : null}
          <Voices />
          <Plan floor={data} />
        </section>
        <Lists floor={data} />
        <div className="counts">
          <Counts floor={data} />
        </div>
      </main>
    </ServerClock>
  );
}
