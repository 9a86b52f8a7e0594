import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { Handover } from '#contracts/custody.ts';
import type { EngineStanding } from '#contracts/floor.ts';
import { ServerClock } from '../../app/now.tsx';
import { useSession } from '../../app/session.tsx';
import { useMedia, useWall } from '../../app/use-media.ts';
import { buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { HandsFrame } from '../bench/hands-frame.tsx';
import { floorQuery, handoverQuery } from '../bench/hands-queries.ts';
import { EngineSection } from '../engine/engine-section.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { PhotosHere } from '../photos/job-photos.tsx';
import { Answering } from './answering.tsx';
import { Ended } from './ended.tsx';
import { LooseFasteners } from './loose-fasteners.tsx';
import { Overdue } from './overdue.tsx';
import { Waiting } from './waiting.tsx';
import './handover.css';

interface SideProps {
  readonly handover: Handover;
  /** Null when the engine is in the shop no more. */
  readonly engine: EngineStanding | null;
}

/** What goes over, as the giver states it and as the books have it. */
function WhatComesOver({ handover, engine }: SideProps) {
  const words = useWords().handover;
  const { person } = useSession();
  const phone = useMedia('(max-width: 820px)');
  const wall = useWall();
  const { trays, looseWords, looseFasteners, openObligations, stateWords, includesEngine } = handover;
  const inTrays = trays.filter(({ trayId }) => trayId !== handover.engine.id).length;
  const counting = handover.receiver.id === person.id && handover.outcome === null;
  return (
    <aside className="comes-over">
      <h1>{handover.giver.id === person.id ? words.goesOver : words.comesOver}</h1>
      {engine === null ? null : (
        <EngineSection
          family={engine.family}
          opening={engine.opening}
          size={wall ? 560 : phone ? 160 : 300}
          name={`${engine.family.name} ${engine.serial}`}
        />
      )}
      <ul>
        <li>
          <b>{stateWords}</b>
          {includesEngine ? null : <p className="note">{words.onlyTrays}</p>}
        </li>
        <li>{words.to(handover.place.name)}</li>
        <li>
          {counting ? words.countedByYou(inTrays) : words.trays(inTrays)}
          {inTrays < trays.length ? <p className="note">{words.withEngineToo}</p> : null}
        </li>
        <li>
          {looseWords === '' ? (
            words.nothingLoose
          ) : (
            <>
              {words.loose} <b>{looseWords}</b>
            </>
          )}
          <LooseFasteners fasteners={looseFasteners} />
        </li>
        <li>
          {words.obligations}{' '}
          {openObligations.length === 0 ? words.noObligations : <b className="num">{openObligations.length}</b>}
          {openObligations.length === 0 ? null : (
            <ul className="open-obligations">
              {openObligations.map((obligation) => (
                <li key={obligation}>{obligation}</li>
              ))}
            </ul>
          )}
        </li>
      </ul>
      {engine === null ? null : (
        <PhotosHere
          engineId={handover.engine.id}
          target={{ jobId: handover.job.id, of: { handover: handover.id }, words: words.photoOf }}
          which={({ of }) => of.kind === 'handover' && of.id === handover.id}
        />
      )}
      <Link className={buttonClass('plain')} to="/handover-sheets/$handoverId" params={{ handoverId: handover.id }}>
        {words.sheet.open}
      </Link>
    </aside>
  );
}

function Body({ handover, engine }: SideProps) {
  const { person } = useSession();
  if (handover.outcome !== null) return <Ended handover={handover} outcome={handover.outcome} />;
  if (handover.receiver.id === person.id) return <Answering handover={handover} open={engine?.opening != null} />;
  return <Waiting handover={handover} />;
}

function Head({ handover, engine }: SideProps) {
  const words = useWords().handover;
  const format = useFormat();
  const { person } = useSession();
  const { giver, receiver } = handover;
  const said =
    receiver.id === person.id
      ? words.gives(giver.name)
      : giver.id === person.id
        ? words.youGive(receiver.name)
        : words.between(giver.name, receiver.name);
  return (
    <>
      <span>
        {said}{' '}
        <b>
          {engine?.family.name} <span className="num nowrap">{handover.engine.serial}</span>
        </b>
      </span>
      <span className="note num">
        {words.offered(format.since(handover.offeredAt))} <Overdue offer={handover} />
      </span>
    </>
  );
}

/** A handover: what comes over, each tray counted blind, then the answer. The giver waits and sees it happen. */
export function HandoverView() {
  const { handoverId } = useParams({ from: '/handovers/$handoverId' });
  const words = useWords().handover;
  const { data: handover, error, refetch } = useQuery(handoverQuery(handoverId));
  const floor = useQuery(floorQuery);
  const engine = floor.data?.engines.find(({ id }) => id === handover?.engine.id) ?? null;
  if (handover === undefined || floor.data === undefined) {
    const wrong = error ?? floor.error;
    const again = () => {
      void refetch();
      void floor.refetch();
    };
    return (
      <HandsFrame title={words.title('')} head={null}>
        {wrong === null ? (
          <Skeleton label={words.reading} lines={8} />
        ) : (
          <NotRead error={wrong} again={again} right="look" />
        )}
      </HandsFrame>
    );
  }
  return (
    <HandsFrame
      title={words.title(`${engine?.family.name ?? ''} ${handover.engine.serial}`.trim())}
      head={<Head handover={handover} engine={engine} />}
    >
      <ServerClock asOf={floor.data.asOf} readAt={floor.dataUpdatedAt}>
        <div className="handover">
          <WhatComesOver handover={handover} engine={engine} />
          <main className="handover-body">
            <Body handover={handover} engine={engine} />
          </main>
        </div>
      </ServerClock>
    </HandsFrame>
  );
}
