import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { EngineStanding } from '#contracts/floor.ts';
import { ServerClock } from '../../app/now.tsx';
import { buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { HandsFrame } from './hands-frame.tsx';
import { floorQuery } from './hands-queries.ts';

/** The way on from a page that has nothing to do. */
export function ToBench() {
  const { toBench } = useWords().tally;
  return (
    <Link to="/bench" className={buttonClass('main', true)}>
      {toBench}
    </Link>
  );
}

interface HandsPageProps {
  readonly jobId: string;
  readonly title: (engine: string) => string;
  readonly doing: string;
  readonly children: (engine: EngineStanding) => ReactNode;
}

/** A page at the bench about one engine in the shop: its name in the head, and what to do while it is read or not here. */
export function HandsPage({ jobId, title, doing, children }: HandsPageProps) {
  const words = useWords();
  const floor = useQuery(floorQuery);
  const engine = floor.data?.engines.find(({ job }) => job.id === jobId);
  const name = engine === undefined ? '' : `${engine.family.name} ${engine.serial}`;
  const body = () => {
    if (floor.data === undefined) {
      return floor.error === null ? (
        <Skeleton label={words.tally.reading} lines={8} />
      ) : (
        <NotRead error={floor.error} again={() => void floor.refetch()} right="look" />
      );
    }
    if (engine === undefined) {
      return (
        <Empty title={words.procedure.notHere} act={<ToBench />}>
          {words.procedure.notHereWhy}
        </Empty>
      );
    }
    return (
      <ServerClock asOf={floor.data.asOf} readAt={floor.dataUpdatedAt}>
        {children(engine)}
      </ServerClock>
    );
  };
  return (
    <HandsFrame
      title={title(name)}
      head={
        <>
          <b>{name}</b> <span className="note">{doing}</span>
        </>
      }
    >
      {body()}
    </HandsFrame>
  );
}
