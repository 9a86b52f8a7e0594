import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import { Span } from '../../app/now.tsx';
import { useMay } from '../../app/session.tsx';
import { useMedia, useWall } from '../../app/use-media.ts';
import { TitleBlock, type TitleFact } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from './engine-section.tsx';
import { NewerRevisionNote } from './revision-dialog.tsx';
import { sectionCallouts } from './section-callouts.ts';

type PageProps = { readonly page: EnginePage };

function usePageFacts(page: EnginePage): TitleFact[] {
  const words = useWords().engine;
  const format = useFormat();
  const { job, standing, holder, place, hours } = page;
  const promise = job?.promise ?? null;
  const opening = standing?.opening ?? null;
  const fact = (name: string, value: ReactNode, wide = false): TitleFact => ({ name, value, wide });
  const held =
    holder === null ? (
      <span className="hot">{words.nobodyHolds}</span>
    ) : (
      <>
        {words.heldBy(place?.name === holder.name ? null : (place?.name ?? null), holder.name)}{' '}
        <span className="note num">{words.since(format.since(holder.since))}</span>
      </>
    );
  return [
    fact(words.hours, <span className="num">{hours === null ? '–' : words.hoursOf(format.decimal(hours))}</span>),
    fact(
      words.promise,
      promise === null ? (
        words.noPromise
      ) : (
        <>
          <span className="num">{format.day(promise.readyOn)}</span>
          <span className="note line">{words.sureOf5(promise.sureOf5)}</span>
        </>
      ),
    ),
    fact(words.whereHeld, held, true),
    fact(
      words.open,
      opening === null ? (
        words.closed
      ) : (
        <>
          <Span from={opening.openSince} />,{' '}
          {opening.covered ? words.covered : <span className="hot">{words.uncovered}</span>}
        </>
      ),
    ),
    fact(
      words.job,
      job === null ? (
        '–'
      ) : (
        <span className="num">
          {job.number}, {words.nthVisit(job.visit)}
        </span>
      ),
    ),
    fact(words.complaint, job?.complaint || '–', true),
    fact(words.owner, page.owner.name),
    fact(
      words.sheet,
      job === null ? (
        '–'
      ) : (
        <>
          {words.revision(job.revision.number)}
          {job.revision.newest > job.revision.number ? <NewerRevisionNote job={job} /> : null}
          {job.revision.figuresInvented ? <span className="note line">{words.invented}</span> : null}
        </>
      ),
    ),
    ...(job === null || job.wishes === '' ? [] : [fact(words.wishes, job.wishes, true)]),
    ...(page.note === '' ? [] : [fact(words.note, page.note, true)]),
  ];
}

/** The large section with what is off lettered beside it; on a phone the lettering becomes a list. */
export function PageSection({ page }: PageProps) {
  const words = useWords().engine;
  const format = useFormat();
  const wall = useWall();
  const narrow = useMedia('(max-width: 620px)');
  const opening = page.standing?.opening ?? null;
  const callouts = sectionCallouts({ cycle: page.family.cycle, opening, trays: page.trays }, { format, words });
  const name = `${page.family.name} ${page.serial}`;
  // Lettering in the drawing keeps its size, which is too small for a wall: there it is a list as well.
  if (!narrow && !wall) {
    return (
      <div className="page-section">
        <EngineSection
          family={page.family}
          opening={opening}
          size={470}
          callouts={callouts}
          calloutWidth={250}
          name={name}
        />
      </div>
    );
  }
  return (
    <div className="page-section narrow">
      <EngineSection family={page.family} opening={opening} size={wall ? 600 : 250} name={name} />
      <ul>
        {callouts.map(({ part, text, note, off }) => (
          <li key={part}>
            {off ? text : <b>{text}</b>}
            <span className="note line">{note}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}

export function PageTitle({ page }: PageProps) {
  const words = useWords().engine;
  const facts = usePageFacts(page);
  const name: TitleFact = {
    name: words.engineName,
    wide: true,
    value: (
      <h1>
        {page.family.name} <span className="num nowrap">{page.serial}</span>
      </h1>
    ),
  };
  return <TitleBlock columns={4} facts={[name, ...facts]} />;
}

/** The parts of a long page, for those who would scroll far. */
export function PageJump({ page }: PageProps) {
  const { engine: words, photos } = useWords();
  const open = page.obligations.filter(({ discharge }) => discharge === null).length;
  return (
    <nav className="page-jump no-print" aria-label={words.onThisPage}>
      {page.job === null ? null : <a href="#measured">{words.measured}</a>}
      <a href="#obligations">
        {words.obligations} <span className="num">&nbsp;{open}</span>
      </a>
      <a href="#photos">{photos.title}</a>
      <a href="#trays">{words.trays}</a>
      <a href="#happened">{words.happened}</a>
    </nav>
  );
}

/** Where this engine's job is gone on with, by what the reader may do. */
export function PageActs({ page }: PageProps) {
  const words = useWords().engine;
  const bench = useMay('bench');
  const counter = useMay('counter');
  const { job, standing } = page;
  if (job === null) return null;
  const params = { jobId: job.id };
  const open = standing !== null;
  return (
    <nav className="acts no-print" aria-label={words.acts}>
      {open && bench ? (
        <>
          <Link to="/bench/$jobId/procedure" params={params} className="btn">
            {words.toProcedure}
          </Link>
          <Link to="/bench/$jobId/measure" params={params} className="btn">
            {words.toMeasure}
          </Link>
          <Link to="/bench/$jobId/assemble" params={params} className="btn">
            {words.toAssemble}
          </Link>
          <Link to="/bench/$jobId/offer" params={params} className="btn">
            {words.toOffer}
          </Link>
        </>
      ) : null}
      {open && counter ? (
        <Link to="/counter/$jobId" params={params} className="btn">
          {words.toCounter}
        </Link>
      ) : null}
      <Link to="/sheets/$jobId" params={params} className="btn">
        {words.toSheet}
      </Link>
    </nav>
  );
}
