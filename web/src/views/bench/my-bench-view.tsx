import { useQuery } from '@tanstack/react-query';
import { ServerClock } from '../../app/now.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { Forbidden } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { floorQuery, myHandoversQuery, shopQuery, stopPointsQuery, traysInShopQuery } from './hands-queries.ts';
import { HeldCard } from './held-card.tsx';
import { type MyBench, myBenchOf } from './my-bench.ts';
import { OffersByMe, OffersToMe, StopsForMe } from './offers-list.tsx';
import { OutsideList } from './outside-list.tsx';
import { RestingList } from './resting-list.tsx';
import './hands.css';
import './my-bench.css';

/** What is still with me, said plainly: nothing is left with nobody at the end of a shift. */
function StillHeld({ held }: Pick<MyBench, 'held'>) {
  const words = useWords().myBench;
  const engines = held.filter(({ mine }) => mine);
  const trays = held.reduce((sum, each) => sum + each.trays.length, 0);
  const uncovered = engines.filter(({ engine }) => engine.opening !== null && !engine.opening.covered).length;
  if (engines.length === 0 && trays === 0) return <p className="still-held">{words.holdNothing}</p>;
  return (
    <p className="still-held">
      <b>{words.hold(engines.length, trays)}</b> {words.endOfShift}
      {uncovered === 0 ? null : <b className="hot"> {words.uncovered(uncovered)}</b>}
    </p>
  );
}

function useBench() {
  const { person, terminal } = useSession();
  const floor = useQuery(floorQuery);
  const trays = useQuery(traysInShopQuery);
  const handovers = useQuery(myHandoversQuery);
  const stops = useQuery(stopPointsQuery);
  const terminals = useQuery(shopQuery).data?.terminals;
  const error = floor.error ?? trays.error ?? handovers.error ?? stops.error;
  const again = () => {
    for (const query of [floor, trays, handovers, stops]) void query.refetch();
  };
  if (
    floor.data === undefined ||
    trays.data === undefined ||
    handovers.data === undefined ||
    stops.data === undefined
  ) {
    return { read: false, error, again } as const;
  }
  const bench = myBenchOf({
    floor: floor.data,
    trays: trays.data.items,
    handovers: handovers.data.items,
    stops: stops.data.items,
    personId: person.id,
    terminalBayId: terminals?.find(({ id }) => id === terminal?.id)?.bay?.id ?? null,
  });
  return { read: true, bench, floor: floor.data, readAt: floor.dataUpdatedAt } as const;
}

function Bench() {
  const words = useWords().myBench;
  const state = useBench();
  if (!state.read) {
    return state.error === null ? (
      <Skeleton label={words.reading} lines={9} />
    ) : (
      <NotRead error={state.error} again={state.again} right="bench" />
    );
  }
  const { bench, floor, readAt } = state;
  const empty = bench.held.length === 0;
  return (
    <ServerClock asOf={floor.asOf} readAt={readAt}>
      <StillHeld held={bench.held} />
      <OffersToMe offers={bench.toMe} />
      <div className={empty ? 'bench-columns empty' : 'bench-columns'}>
        <section className="bench-held" aria-label={words.mine}>
          {empty ? <Empty title={words.nothingHeld}>{words.nothingHeldWhy}</Empty> : null}
          {bench.held.map((held) => (
            <HeldCard key={held.engine.id} held={held} floor={floor} />
          ))}
        </section>
        <aside className="bench-aside">
          <StopsForMe stops={bench.stops} />
          <OffersByMe offers={bench.byMe} />
          <OutsideList floor={floor} />
          <RestingList resting={bench.resting} floor={floor} />
        </aside>
      </div>
    </ServerClock>
  );
}

/** What I hold, what is offered to me, what I can take: with what comes next of each. */
export function MyBenchView() {
  const words = useWords().myBench;
  const may = useMay('bench');
  return (
    <main className="my-bench">
      <title>{words.title}</title>
      <h1>{words.title}</h1>
      {may ? <Bench /> : <Forbidden right="bench" />}
    </main>
  );
}
