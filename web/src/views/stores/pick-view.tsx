import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PickWalk } from '#contracts/stores-desks.ts';
import { useSession } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { Desks } from './desks.tsx';
import { FirstOf } from './first-of.tsx';
import { NotYetRead } from './not-yet-read.tsx';
import { sameLot, usePickBox } from './pick-box.ts';
import { PickBox } from './pick-box-panel.tsx';
import { FewerDialog } from './pick-fewer.tsx';
import { PickRow } from './pick-row.tsx';
import { type Stop, stopId } from './pick-stop.ts';
import { useShownFirst } from './shown-first.ts';
import { FileLink } from './store-files.tsx';
import { walkQuery } from './stores-queries.ts';
import { usePickScan } from './use-pick-scan.ts';
import './stores.css';
import './desks.css';
import './pick.css';

/** What to pick now, as a walk: one thing at a time on a phone, all of it on a desk. */
export function PickWalkView() {
  const { walk: words } = useWords().storesDesks;
  const walk = useQuery(walkQuery);
  return (
    <main className="stores one-sheet">
      <title>{words.title}</title>
      <div className="p">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <FileLink name="walk" />
        </div>
        <NotYetRead query={walk} label={words.reading} lines={7} />
        {walk.data === undefined ? null : <Walk walk={walk.data} />}
      </div>
    </main>
  );
}

/** Rows on the page at first. */
const rowsAtATime = 300;

function Walk({ walk }: { readonly walk: PickWalk }) {
  const { walk: words } = useWords().storesDesks;
  const { person } = useSession();
  const { box, put, takeOut } = usePickBox(person.id);
  const [jobId, setJobId] = useState('');
  const [at, setAt] = useState<string | null>(null);
  const [standing, setStanding] = useState<string | null>(null);
  const [fewer, setFewer] = useState<Stop | null>(null);
  const [whole, setWhole] = useState(false);
  const all: readonly Stop[] = walk.stops.flatMap(({ bin, picks }) => picks.map((pick) => ({ ...pick, bin })));
  const stops = all.filter(({ job }) => jobId === '' || job.id === jobId);
  const isPicked = (stop: Stop) => box.some((one) => sameLot(one, stop) && one.quantity <= stop.quantity);
  const open = stops.filter((stop) => !isPicked(stop));
  const current = stops.find((stop) => stopId(stop) === at) ?? open[0] ?? stops[0];
  const { shown, more } = useShownFirst(stops, rowsAtATime, current === undefined ? -1 : stops.indexOf(current) + 1);
  const take = (stop: Stop) => {
    put(stop);
    setAt(null);
  };
  usePickScan({ stops, current, isPicked, take, takeOut, goTo: setAt, standAt: setStanding, chooseJob: setJobId });
  if (all.length === 0 && box.length === 0) return <Empty title={words.nothing}>{words.nothingWhat}</Empty>;
  const index = current === undefined ? 0 : stops.indexOf(current);
  const step = (by: number) => {
    const next = stops[index + by];
    if (next !== undefined) setAt(stopId(next));
  };
  return (
    <div className={whole ? 'walk whole' : 'walk'}>
      <WalkHead all={all} jobId={jobId} onJob={setJobId} done={stops.length - open.length} count={stops.length} />
      <div>
        <ol className="walk-stops">
          {shown.map((stop, nth) => (
            <PickRow
              key={stopId(stop)}
              stop={stop}
              newBin={stops[nth - 1]?.bin.id !== stop.bin.id}
              current={stop === current}
              picked={isPicked(stop)}
              standing={standing === stop.bin.id}
              onTake={() => take(stop)}
              onBack={() => takeOut(stop)}
              onFewer={() => setFewer(stop)}
            />
          ))}
        </ol>
        <FirstOf shown={shown.length} of={stops.length} onMore={more} />
      </div>
      <div className="walk-steps">
        <Button big disabled={index === 0} onClick={() => step(-1)}>
          {words.before}
        </Button>
        <span className="num">{words.stop(index + 1, stops.length)}</span>
        <Button big disabled={index >= stops.length - 1} onClick={() => step(1)}>
          {words.next}
        </Button>
        <Button onClick={() => setWhole(!whole)}>{whole ? words.showOne : words.showAll}</Button>
      </div>
      <PickBox box={box} stops={all} onTakeOut={takeOut} />
      {fewer === null ? null : (
        <FewerDialog
          stop={fewer}
          inBox={box.filter(({ lotId }) => lotId === fewer.lotId).reduce((sum, { quantity }) => sum + quantity, 0)}
          onClose={() => setFewer(null)}
        />
      )}
    </div>
  );
}

interface HeadProps {
  readonly all: readonly Stop[];
  readonly jobId: string;
  readonly onJob: (jobId: string) => void;
  readonly done: number;
  readonly count: number;
}

function WalkHead({ all, jobId, onJob, done, count }: HeadProps) {
  const { walk: words } = useWords().storesDesks;
  const jobs = [...new Map(all.map(({ job }) => [job.id, job])).values()].toSorted((a, b) => a.number - b.number);
  return (
    <div className="walk-head">
      <Field label={words.forJob}>
        {(input) => (
          <select {...input} value={jobId} onChange={({ target }) => onJob(target.value)}>
            <option value="">{words.all}</option>
            {jobs.map(({ id, number, family, serial }) => (
              <option key={id} value={id}>
                {words.jobName(number, family, serial)}
              </option>
            ))}
          </select>
        )}
      </Field>
      <div className="walk-progress">
        <progress value={done} max={Math.max(1, count)} aria-label={words.progress(done, count)} />
        <span className="num">{words.progress(done, count)}</span>
      </div>
      <p className="note">{words.scanHint}</p>
    </div>
  );
}
