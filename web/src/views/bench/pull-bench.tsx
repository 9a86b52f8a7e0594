import type { AssemblyPage, FastenerSetStanding } from '#contracts/assembly.ts';
import { useMay } from '../../app/session.tsx';
import { useMedia, useWall } from '../../app/use-media.ts';
import { BoltMap } from '../../drawings/bolt-map.tsx';
import { Button } from '../../kit/button.tsx';
import { NumberPad } from '../../kit/number-pad.tsx';
import { useFormat } from '../../words/format.ts';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { AdapterPane } from './adapter-pane.tsx';
import { PullFacts, RefusedPulls, SetFacts } from './pull-facts.tsx';
import type { SetNow } from './pulling.ts';
import { Renewals } from './renewals.tsx';
import { usePullKeying } from './use-pull-keying.ts';
import { WrenchChoice } from './wrench-choice.tsx';

interface PullBenchProps {
  readonly jobId: string;
  readonly set: FastenerSetStanding;
  readonly wrenches: AssemblyPage['wrenches'];
  /** A head is drawn behind its bolts. */
  readonly head: boolean;
}

function SetMap({
  set,
  now,
  head,
  onBolt,
}: {
  set: FastenerSetStanding;
  now: SetNow;
  head: boolean;
  onBolt: (id: string) => void;
}) {
  const wall = useWall();
  const phone = useMedia('(max-width: 560px)');
  return (
    <BoltMap
      width={wall ? 860 : phone ? 340 : 500}
      backdrop={head ? 'four-valve-head' : 'plain'}
      stage={now.next?.stage.ordinal ?? now.stages.length}
      stages={now.stages.length}
      next={now.next === undefined ? null : String(now.next.fastener)}
      onBolt={onBolt}
      bolts={set.positions.map(({ number, x, y }) => ({
        id: String(number),
        number: String(number),
        ...(set.orderIsMakers ? {} : { place: set.order.indexOf(number) + 1 }),
        x: Number(x.value),
        y: Number(y.value),
        stagesDone: now.stages.filter(({ done }) => done.includes(number)).length,
      }))}
    />
  );
}

/** One set: the map with its order, the stage's figure, the wrench, and every pull a tap. */
export function PullBench({ jobId, set, wrenches: shop, head }: PullBenchProps) {
  const { assemble } = useWords();
  const words = assemble.fasteners;
  const format = useFormat();
  const may = useMay('bench');
  const keying = usePullKeying(jobId, set, shop);
  const { entries, now, pulling, text, notice, wrenches, wrench, shown, choose, pull, hear } = keying;
  const { next } = now;
  return (
    <div className="pull-bench">
      <div className="drawn">
        <SetMap set={set} now={now} head={head} onBolt={(id) => pull(Number(id))} />
        <PullFacts set={set} now={now} />
        {next === undefined ? null : wrenches === null ? (
          <p>{words.angleTool}</p>
        ) : (
          <>
            <WrenchChoice offered={wrenches.offered} value={wrench ?? null} onChange={choose} />
            <AdapterPane
              figure={next.stage.figure}
              keyed={keying.adapter}
              setting={keying.setting}
              onKeyed={keying.setAdapter}
            />
          </>
        )}
        <SetFacts set={set} />
        <Renewals jobId={jobId} set={set} />
        <p className="caution">{words.caution}</p>
        {set.cautions.map((caution) => (
          <p key={caution} className="caution">
            {caution}
          </p>
        ))}
      </div>
      <div className="worked">
        {next === undefined ? (
          <p className="stage-figure">{words.allDone}</p>
        ) : (
          <div className="stage-figure">
            <span className="note">{text === '' ? words.next(next.fastener) : words.keyed}</span>
            <output aria-live="off">{shown}</output>
            <span>
              {keying.setting?.ok === true ? `${words.atBolt(quantityText(next.stage.figure))}. ` : ''}
              {words.condition[set.condition] ?? set.condition}
            </span>
          </div>
        )}
        <div className="pull-notices">
          <RefusedPulls set={set} entries={entries} />
          {notice === '' ? null : (
            <div className="mend hot" role="alert">
              <p>{notice}</p>
              <Button onClick={keying.clearNotice}>{words.seen}</Button>
            </div>
          )}
        </div>
        <NumberPad
          label={words.pad}
          eraseLabel={words.erase}
          separator={format.decimal('0.5').slice(1, 2)}
          onKey={(key) => hear(key === 'Backspace' ? { type: 'erase' } : { type: 'text', text: key })}
          acts={[
            {
              id: 'back',
              label: words.takeBack,
              onPress: () => pulling.takeBackLast(),
              disabled: !may || pulling.last === undefined,
            },
            {
              id: 'pull',
              label:
                next === undefined
                  ? words.complete
                  : wrenches === null
                    ? words.turned(shown, next.fastener)
                    : words.pulled(shown, next.fastener),
              onPress: () => (next === undefined ? undefined : pull(next.fastener)),
              main: true,
              disabled: next === undefined || !may,
            },
          ]}
        />
        {next === undefined ? null : <p className="note">{words.tapHint}</p>}
        {pulling.last === undefined ? null : (
          <p>
            <span className="note">{words.last(pulling.last.fastener, pulling.last.stage)}</span>{' '}
            <b className="num">{quantityText(pulling.last.value)}</b>{' '}
            {pulling.last.atBolt === null ? null : (
              <span className="note">{words.atBolt(quantityText(pulling.last.atBolt))}</span>
            )}{' '}
            {pulling.last.waiting ? <span className="note">{words.waiting}</span> : null}
          </p>
        )}
        {set.torqueToYield && pulling.last?.value.unit === 'deg' && !pulling.last.waiting ? (
          <Button big disabled={!may} onClick={() => pulling.takeBackLast(true)}>
            {words.pastYield(pulling.last.fastener)}
          </Button>
        ) : null}
      </div>
    </div>
  );
}
