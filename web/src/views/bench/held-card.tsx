import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useId, useState } from 'react';
import type { Floor } from '#contracts/floor.ts';
import { Span } from '../../app/now.tsx';
import { useMedia, useWall } from '../../app/use-media.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { Waits } from '../../kit/waits.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { waitLabels } from '../engine/wait-labels.ts';
import { DepthWords } from '../floor/engine-card.tsx';
import { CoverButton } from './cover-button.tsx';
import { runsQuery } from './hands-queries.ts';
import { HeldVoices } from './held-voices.tsx';
import { MoveDialog } from './move-dialog.tsx';
import type { Held } from './my-bench.ts';
import { SendOutDialog } from './send-out-dialog.tsx';

/** The one act that comes next by the procedures that run. */
function NextAct({ jobId }: { readonly jobId: string }) {
  const words = useWords().myBench;
  const runs = useQuery(runsQuery(jobId)).data?.items;
  if (runs === undefined) return null;
  const params = { jobId };
  const run = runs.toReversed().find(({ steps }) => steps.some(({ next }) => next));
  const step = run?.steps.find(({ next }) => next);
  if (run !== undefined && step !== undefined) {
    return (
      <Link className={buttonClass('main', true)} to="/bench/$jobId/procedure" params={params}>
        {words.nextStep(run.procedure.name, step.ordinal, step.title)}
      </Link>
    );
  }
  const through = new Set(runs.map(({ procedure }) => procedure.kind));
  if (through.has('strip') && !through.has('assemble')) {
    return (
      <Link className={buttonClass('main', true)} to="/bench/$jobId/measure" params={params}>
        {words.stepsDone}
      </Link>
    );
  }
  return (
    <Link className={buttonClass('main', true)} to="/bench/$jobId/procedure" params={params}>
      {through.size === 0 ? words.begin : words.allDone}
    </Link>
  );
}

function Acts({
  held,
  leave,
  sendOut,
}: {
  readonly held: Held;
  readonly leave: () => void;
  readonly sendOut: () => void;
}) {
  const words = useWords().myBench;
  const params = { jobId: held.engine.job.id };
  return (
    <div className="hands-acts even">
      {held.mine ? (
        <>
          <Link className={buttonClass('plain', true)} to="/bench/$jobId/procedure" params={params}>
            {words.procedure}
          </Link>
          <Link className={buttonClass('plain', true)} to="/bench/$jobId/measure" params={params}>
            {words.measure}
          </Link>
          <Link className={buttonClass('plain', true)} to="/bench/$jobId/assemble" params={params}>
            {words.assemble}
          </Link>
        </>
      ) : null}
      <Link className={buttonClass('plain', true)} to="/bench/$jobId/offer" params={params}>
        {words.handOver}
      </Link>
      <Button big onClick={leave}>
        {words.leave}
      </Button>
      <Button big onClick={sendOut}>
        {words.sendOut}
      </Button>
      {held.mine && held.engine.opening?.covered === true ? <CoverButton opening={held.engine.opening} /> : null}
    </div>
  );
}

function TrayLists({ held: { trays, elsewhere } }: { readonly held: Held }) {
  const words = useWords().myBench;
  return (
    <div className="held-trays">
      {trays.length === 0 ? (
        <p className="note">{words.noTrays}</p>
      ) : (
        <>
          <h3>{words.trays}</h3>
          <ul className="tray-tags">
            {trays.map(({ id, label, name }) => (
              <li key={id}>
                <Link to="/trays/$trayId" params={{ trayId: id }}>
                  <b className="num">{label}</b> {name}
                </Link>
              </li>
            ))}
          </ul>
        </>
      )}
      {elsewhere.length === 0 ? null : (
        <details>
          <summary>
            {words.traysElsewhere} <span className="num">({elsewhere.length})</span>
          </summary>
          <ul className="note">
            {elsewhere.map(({ id, label, name, held }) => (
              <li key={id}>
                <span className="num">{label}</span> {name}:{' '}
                {held === null ? '' : words.heldAt(held.name, held.place?.name ?? null)}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

/** One engine I hold, or trays of one: how it stands, what it waits for, what comes next. */
export function HeldCard({ held, floor }: { readonly held: Held; readonly floor: Floor }) {
  const words = useWords();
  const format = useFormat();
  const wall = useWall();
  const phone = useMedia('(max-width: 560px)');
  const heading = useId();
  const [doing, setDoing] = useState<'leave' | 'send out' | null>(null);
  const { engine, mine } = held;
  const labels = waitLabels(
    { ...engine, findings: floor.pastOrUndecided, today: floor.today },
    { format, words: words.engine },
  );
  const offers = engine.handovers.filter(({ giver }) => mine && giver.id === engine.holder?.id);
  const loud = mine && engine.opening !== null && !engine.opening.covered;
  return (
    <article className={loud ? 'held loud' : 'held'} aria-labelledby={heading}>
      <EngineSection family={engine.family} opening={engine.opening} size={wall ? 330 : phone ? 150 : 230} decorative />
      <div className="held-words">
        <h2 id={heading}>
          <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
            {mine ? engine.family.name : words.myBench.traysOnly(engine.family.name)}{' '}
            <span className="num nowrap">{engine.serial}</span>
          </Link>
        </h2>
        <p className="held-depth">
          <DepthWords opening={engine.opening} />
        </p>
        {mine && engine.opening !== null ? <HeldVoices openingId={engine.opening.id} /> : null}
        {mine ? (
          <p className="note">
            {engine.place === null ? words.myBench.atNoBay : words.myBench.inBay(engine.place.name)}
            {engine.holder === null ? null : `, ${words.myBench.since(format.since(engine.holder.since))}`}
          </p>
        ) : (
          <p className="note">
            {words.myBench.engineWith(
              words.myBench.heldAt(engine.holder?.name ?? words.engine.nobodyHolds, engine.place?.name ?? null),
            )}
          </p>
        )}
        {offers.map(({ id, receiver }) => (
          <p key={id}>
            <Link to="/handovers/$handoverId" params={{ handoverId: id }}>
              {words.myBench.offeredOut(receiver.name)}
            </Link>
          </p>
        ))}
        <Waits
          none={words.engine.wait.none}
          waits={labels.map(({ id, kind, text, spanFrom }) => ({
            id,
            kind,
            text: (
              <>
                {text} {spanFrom === undefined ? null : <Span from={spanFrom} />}
              </>
            ),
          }))}
        />
        <TrayLists held={held} />
      </div>
      <div className="held-acts">
        {loud && engine.opening !== null ? <CoverButton opening={engine.opening} /> : null}
        {mine ? <NextAct jobId={engine.job.id} /> : null}
        <Acts held={held} leave={() => setDoing('leave')} sendOut={() => setDoing('send out')} />
      </div>
      {doing === 'send out' ? <SendOutDialog held={held} floor={floor} onClose={() => setDoing(null)} /> : null}
      {doing === 'leave' ? (
        <MoveDialog
          move={{ kind: 'leave', engine, itself: mine, trays: held.trays }}
          floor={floor}
          onClose={() => setDoing(null)}
        />
      ) : null}
    </article>
  );
}
