import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { Moved } from '#contracts/custody.ts';
import type { EngineStanding, Floor, Wait } from '#contracts/floor.ts';
import { useWrite } from '../../app/write.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { outsideQuery } from '../counter/counter-queries.ts';
import { useBlanks } from './counting.tsx';
import { sumOf, useDialogCounts } from './counts.ts';
import { jobTraysQuery } from './hands-queries.ts';
import { countsOf, Differing, linesOf, TrayCounts, useToCount } from './tray-counts.tsx';

interface Away {
  readonly engine: EngineStanding;
  readonly wait: Wait;
}

const vendorOf = ({ endedBy }: Wait): string => (endedBy.kind === 'right' ? '' : endedBy.name);

/** What came back from a vendor is counted and put down in a bay. */
function BackDialog({
  away,
  floor,
  onClose,
}: {
  readonly away: Away;
  readonly floor: Floor;
  readonly onClose: () => void;
}) {
  const words = useWords().myBench;
  const { back } = words;
  const { engine, wait } = away;
  const [bayId, setBay] = useState<string | null>(null);
  const work = useQuery(outsideQuery(engine.job.id)).data?.items.find(({ id }) => id === wait.cause.id);
  const trays = useQuery(jobTraysQuery(engine.job.id)).data;
  const counted = useToCount(trays, {
    engineId: engine.id,
    itself: work?.subject.kind === 'engine',
    trayIds: work === undefined ? [] : [work.subject.id],
  });
  const lines = counted.flatMap(linesOf);
  const { counts, close } = useDialogCounts(`back ${wait.cause.id}`, onClose);
  const blanks = useBlanks(counts, lines);
  const writing = useWrite<Moved>();
  const ready = bayId !== null && work !== undefined && trays !== undefined && !writing.busy;
  const go = (withDifference: boolean) =>
    writing.write(
      {
        path: `/outside-work/${wait.cause.id}/back`,
        body: { bayId, counts: countsOf(lines, counts), ...(withDifference ? { withDifference } : {}) },
      },
      close,
    );
  return (
    <Dialog title={back.title(vendorOf(wait))} open onClose={close}>
      <div className="hands-form">
        {work === undefined || trays === undefined ? (
          <Skeleton label={words.move.reading} lines={2} />
        ) : (
          <p>
            <b>{work.work}</b>
          </p>
        )}
        <Choice
          label={back.bay}
          value={bayId}
          onChange={setBay}
          options={floor.bays.map(({ id, name, capacity, engineIds }) => ({
            value: id,
            label: name,
            note: words.move.full(engineIds.length, capacity),
          }))}
        />
        <TrayCounts trays={counted} counts={counts} disabled={writing.busy} />
        {blanks.note}
        <Differing error={writing.error} disabled={!ready} goOn={() => go(true)} />
        <div className="dialog-acts">
          <Button big kind="main" disabled={!ready} onClick={() => blanks.commit(() => go(false))}>
            {back.go(sumOf(counts, lines))}
          </Button>
          <Button big onClick={close}>
            {words.move.close}
          </Button>
        </div>
      </div>
    </Dialog>
  );
}

/** What is at a vendor, for what, due when: whoever is here when it comes back takes it in. */
export function OutsideList({ floor }: { readonly floor: Floor }) {
  const { back: words } = useWords().myBench;
  const format = useFormat();
  const [taking, setTaking] = useState<Away | null>(null);
  const away = floor.engines.flatMap((engine): Away[] =>
    engine.waits.filter(({ cause }) => cause.kind === 'outside work').map((wait) => ({ engine, wait })),
  );
  if (away.length === 0) return null;
  return (
    <section aria-label={words.list}>
      <h2>{words.list}</h2>
      <ul className="bench-list">
        {away.map(({ engine, wait }) => (
          <li key={wait.cause.id}>
            <div>
              <b>
                {engine.family.name} <span className="num nowrap">{engine.serial}</span>
              </b>
              <p>{wait.words}</p>
              <p className={wait.dueOn !== null && wait.dueOn < floor.today ? 'hot' : 'note'}>
                {words.at(vendorOf(wait), wait.dueOn === null ? null : format.day(wait.dueOn))}
                {wait.dueOn !== null && wait.dueOn < floor.today ? `, ${words.late}` : ''}
              </p>
            </div>
            <Link className={buttonClass('plain', true)} to="/slips/$outsideId" params={{ outsideId: wait.cause.id }}>
              {words.slip}
            </Link>
            <Button
              big
              aria-label={words.takeOf(`${engine.family.name} ${engine.serial}`, vendorOf(wait))}
              onClick={() => setTaking({ engine, wait })}
            >
              {words.take}
            </Button>
          </li>
        ))}
      </ul>
      {taking === null ? null : <BackDialog away={taking} floor={floor} onClose={() => setTaking(null)} />}
    </section>
  );
}
