import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { Handover } from '#contracts/custody.ts';
import type { EngineStanding } from '#contracts/floor.ts';
import { PaperPage } from '../../app/paper-page.tsx';
import { PaperHead } from '../../kit/paper-head.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { floorQuery, handoverQuery } from '../bench/hands-queries.ts';
import { EngineSection } from '../engine/engine-section.tsx';
import { SheetOfTrays } from './sheet-of-trays.tsx';
import '../sheet/sheet.css';
import './handover.css';

interface OnPaper {
  readonly handover: Handover;
  /** Null when the engine is in the shop no more. */
  readonly engine: EngineStanding | null;
}

function TitleBlock({ handover, engine }: OnPaper) {
  const { sheet: words, outcome: outcomes } = useWords().handover;
  const format = useFormat();
  const { giver, receiver, place, offeredAt, answerDueAt, outcome, endedAt, endedReason } = handover;
  const facts = [
    [words.engine, `${engine?.family.name ?? ''} ${handover.engine.serial}`.trim()],
    [words.from, giver.name],
    [words.to, receiver.name],
    [words.bay, place.name],
    [words.offered, format.dateTime(offeredAt)],
    [
      words.answer,
      outcome === null || endedAt === null
        ? words.due(format.dateTime(answerDueAt))
        : words.outcome(outcomes[outcome], format.dateTime(endedAt)),
    ],
  ] as const;
  return (
    <PaperHead
      title={words.title(handover.job.number)}
      facts={facts}
      below={endedReason === '' ? null : <p>{words.reason(endedReason)}</p>}
      drawing={
        engine === null ? null : (
          <EngineSection
            family={engine.family}
            opening={engine.opening}
            size={190}
            name={`${engine.family.name} ${engine.serial}`}
          />
        )
      }
    />
  );
}

/** What is open and loose as it goes over: as it stood when it was offered. */
function OpenWork({ handover }: { readonly handover: Handover }) {
  const { sheet: words, notPulled } = useWords().handover;
  const { looseWords, looseFasteners, openObligations } = handover;
  return (
    <>
      <section>
        <h2>{words.loose}</h2>
        {looseWords === '' && looseFasteners.length === 0 ? <p>{words.nothing}</p> : null}
        {looseWords === '' ? null : <p>{looseWords}</p>}
        <ul>
          {looseFasteners.map(({ set, name, stage, positions }) => (
            <li key={`${set} ${stage}`}>{notPulled(name, stage, positions)}</li>
          ))}
        </ul>
      </section>
      <section>
        <h2>{words.obligations}</h2>
        {openObligations.length === 0 ? <p>{words.none}</p> : null}
        <ul>
          {openObligations.map((obligation) => (
            <li key={obligation}>{obligation}</li>
          ))}
        </ul>
      </section>
    </>
  );
}

function Paper({ handover, engine }: OnPaper) {
  const { sheet: words } = useWords().handover;
  const { giver, receiver, stateWords, includesEngine } = handover;
  return (
    <article className="a4 handover-sheet">
      <title>{words.title(handover.job.number)}</title>
      <div className="frame">
        <TitleBlock handover={handover} engine={engine} />
        <section>
          <h2>{words.goes}</h2>
          <p>
            {includesEngine ? (
              <>
                {words.engineGoes}: <b>{stateWords}</b>
              </>
            ) : (
              words.engineStays
            )}
          </p>
          <SheetOfTrays trays={handover.trays} />
        </section>
        <OpenWork handover={handover} />
        <div className="signatures">
          {[giver, receiver].map(({ id, name }) => (
            <p key={id}>{words.signed(name)}</p>
          ))}
        </div>
      </div>
    </article>
  );
}

/** A handover on paper: on screen as it will be printed. */
export function HandoverSheetView() {
  const words = useWords().handover;
  const { handoverId } = useParams({ from: '/handover-sheets/$handoverId' });
  const handover = useQuery(handoverQuery(handoverId));
  const floor = useQuery(floorQuery);
  const engine = floor.data?.engines.find(({ id }) => id === handover.data?.engine.id) ?? null;
  return (
    <PaperPage
      words={{ title: words.sheet.open, print: words.sheet.print, reading: words.reading }}
      query={handover}
      waits={floor.isPending}
      back={
        <Link className="btn" to="/handovers/$handoverId" params={{ handoverId }}>
          {words.sheet.back}
        </Link>
      }
    >
      {(data) => <Paper handover={data} engine={engine} />}
    </PaperPage>
  );
}
