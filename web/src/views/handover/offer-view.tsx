import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { ServerClock } from '../../app/now.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { Forbidden, Missing } from '../../app/view-states.tsx';
import { buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { DepthStrip } from '../bench/depth-strip.tsx';
import { HandsFrame } from '../bench/hands-frame.tsx';
import { ToBench } from '../bench/hands-page.tsx';
import { floorQuery, peopleQuery, traysInShopQuery } from '../bench/hands-queries.ts';
import { NotRead } from '../engine/not-read.tsx';
import { OfferForm } from './offer-form.tsx';
import './handover.css';
import '../bench/procedure.css';

/** What I hold of one job goes over to somebody: who, where, what, and what is loose. */
export function OfferView() {
  const { jobId } = useParams({ from: '/bench/$jobId/offer' });
  const words = useWords().handover.offer;
  const may = useMay('bench');
  const { person } = useSession();
  const [floor, trays, people] = [useQuery(floorQuery), useQuery(traysInShopQuery), useQuery(peopleQuery)];
  const engine = floor.data?.engines.find(({ job }) => job.id === jobId);
  const name = engine === undefined ? '' : `${engine.family.name} ${engine.serial}`;
  const frame = (body: ReactNode) => (
    <HandsFrame
      title={words.title(name)}
      head={
        <span>
          {words.head} <b>{name}</b>
        </span>
      }
    >
      {body}
    </HandsFrame>
  );
  if (!may) return frame(<Forbidden right="bench" />);
  if (floor.data === undefined || trays.data === undefined || people.data === undefined) {
    const error = floor.error ?? trays.error ?? people.error;
    const again = () => {
      for (const query of [floor, trays, people]) void query.refetch();
    };
    return frame(
      error === null ? (
        <Skeleton label={words.reading} lines={8} />
      ) : (
        <NotRead error={error} again={again} right="look" />
      ),
    );
  }
  if (engine === undefined) return frame(<Missing />);
  const own = trays.data.items.filter(
    ({ job, held }) => job.id === jobId && held?.kind === 'person' && held.id === person.id,
  );
  const holdsEngine = engine.holder?.kind === 'person' && engine.holder.id === person.id;
  const engineOffer = engine.handovers.find(({ ofTheEngine }) => ofTheEngine);
  const free = own.filter(({ offeredIn }) => offeredIn === null);
  const offerId = engineOffer?.id ?? own.find(({ offeredIn }) => offeredIn !== null)?.offeredIn ?? undefined;
  const freeEngine = holdsEngine && engineOffer === undefined;
  if (!freeEngine && free.length === 0) {
    const offered = (holdsEngine || own.length > 0) && offerId !== undefined;
    return frame(
      <Empty
        title={offered ? words.allOffered : words.nothing}
        act={
          offered ? (
            <Link className={buttonClass('main', true)} to="/handovers/$handoverId" params={{ handoverId: offerId }}>
              {words.seeOffer}
            </Link>
          ) : (
            <ToBench />
          )
        }
      >
        {offered ? words.allOfferedWhy : words.nothingWhy}
      </Empty>,
    );
  }
  const receivers = people.data.people.filter(
    ({ id, roles }) => id !== person.id && (roles.includes('technician') || roles.includes('lead')),
  );
  return frame(
    <ServerClock asOf={floor.data.asOf} readAt={floor.dataUpdatedAt}>
      <DepthStrip opening={engine.opening} />
      <OfferForm engine={engine} freeEngine={freeEngine} trays={free} receivers={receivers} bays={floor.data.bays} />
    </ServerClock>,
  );
}
