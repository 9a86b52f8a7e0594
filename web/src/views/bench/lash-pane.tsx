import { useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import type { AssemblyPage, ValveStanding } from '#contracts/assembly.ts';
import type { BenchInstrument } from '#contracts/bench.ts';
import type { HeadsShimsAnswer } from '#contracts/head-shims.ts';
import { useMedia, useWall } from '../../app/use-media.ts';
import { LashBoard } from '../../drawings/lash-board.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type Asked, boardValve } from './lash-valves.ts';
import { RackAtValve } from './rack-at-valve.tsx';
import { ValveBench } from './valve-bench.tsx';
import { WholeHead } from './whole-head.tsx';

interface LashPaneProps {
  readonly page: AssemblyPage;
  readonly gauges: readonly BenchInstrument[];
}

/** The valve to begin with: the one somebody was led to, else the first that isn't verified. */
const firstOf = (valves: readonly ValveStanding[], asked: unknown): string | null =>
  (valves.find(({ name }) => name === asked) ?? valves.find(({ verified }) => verified !== 'in-range') ?? valves[0])
    ?.code ?? null;

const withoutAnswers = (asked: Readonly<Record<string, Asked>>): Readonly<Record<string, Asked>> =>
  Object.fromEntries(Object.entries(asked).map(([code, { fitted }]) => [code, { fitted, answer: undefined }]));

/** The valves as seen from above; one of them is worked at beside it. */
export function LashPane({ page, gauges }: LashPaneProps) {
  const words = useWords();
  const { assemble } = words;
  const format = useFormat();
  const wall = useWall();
  const narrow = useMedia('(max-width: 1500px)');
  const phone = useMedia('(max-width: 420px)');
  const { valve: led }: { valve?: unknown } = useSearch({ strict: false });
  const [code, setCode] = useState(() => firstOf(page.valves, led));
  const [asked, setAsked] = useState<Readonly<Record<string, Asked>>>({});
  const [head, setHead] = useState<HeadsShimsAnswer>();
  const valve = page.valves.find((one) => one.code === code);
  /** What is keyed at one valve changes what would do for all of them. */
  const keyed = (at: string, one: Asked) => {
    setHead(undefined);
    setAsked({ ...(head === undefined ? asked : withoutAnswers(asked)), [at]: one });
  };
  if (valve === undefined) return <p className="state empty">{assemble.lash.none}</p>;
  return (
    <section className="lash-pane">
      <div className="drawn">
        <LashBoard
          stacked={narrow}
          format={format.number}
          {...(wall ? { width: 1080 } : phone ? { width: 340 } : narrow ? {} : { width: 696 })}
          valves={page.valves.map((one) => boardValve(one, asked[one.code], { valves: page.valves, words }))}
        />
        <fieldset className="valve-choice">
          <legend>{assemble.lash.which}</legend>
          {page.valves.map((one) => (
            <button
              key={one.code}
              type="button"
              className={one.code === code ? 'place active' : 'place'}
              aria-pressed={one.code === code}
              onClick={() => setCode(one.code)}
            >
              <span>{one.name}</span>
              <span className={one.verified === 'out' || one.verified === 'undecided' ? 'note hot' : 'note'}>
                {assemble.lash.verified[one.verified]}
              </span>
            </button>
          ))}
        </fieldset>
        {page.openingId === null ? null : (
          <RackAtValve key={code} opening={{ id: page.openingId, jobId: page.jobId }} valve={valve.code} />
        )}
        <WholeHead page={page} asked={asked} onAsked={setAsked} answer={head} onAnswer={setHead} />
      </div>
      <ValveBench
        key={valve.code}
        jobId={page.jobId}
        valve={valve}
        gauges={gauges}
        asked={asked[valve.code]}
        onAsked={(one) => keyed(valve.code, one)}
      />
    </section>
  );
}
