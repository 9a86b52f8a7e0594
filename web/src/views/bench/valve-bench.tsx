import { useMutation } from '@tanstack/react-query';
import { useRouter } from '@tanstack/react-router';
import { useState } from 'react';
import type { ShimAnswer, ShimQuestion, ValveStanding } from '#contracts/assembly.ts';
import type { BenchInstrument } from '#contracts/bench.ts';
import { send } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BladeSet, BladeSides } from './blade-set.tsx';
import { type BladesKeyed, isWhole, noBlades, sideText, thickness } from './blades.ts';
import { FittedShim } from './fitted-shim.tsx';
import { type Asked, fittedText, isThickness } from './lash-valves.ts';
import { ShimAnswerPanel } from './shim-answer.tsx';

interface ValveBenchProps {
  readonly jobId: string;
  readonly valve: ValveStanding;
  readonly gauges: readonly BenchInstrument[];
  readonly asked: Asked | undefined;
  readonly onAsked: (asked: Asked) => void;
}

const decimals = (text: string): number => /[.,](\d+)/.exec(text)?.[1]?.length ?? 0;

/** The lash of the question: what was measured, or what is keyed here by blades. */
function lashOf(valve: ValveStanding, keyed: BladesKeyed | null): ShimQuestion['lash'] | null {
  if (keyed === null) return valve.lash;
  if (!isWhole(keyed)) return null;
  const [low, high] = [thickness(keyed.go) ?? 0, thickness(keyed.noGo)];
  const figure = (value: number) =>
    value.toFixed(Math.max(2, decimals(sideText(keyed.go) ?? ''), decimals(sideText(keyed.noGo) ?? '')));
  return { low: figure(low), high: high === null ? null : figure(high), unit: 'mm' };
}

/** Measuring a valve again is done at the measuring bench, in the round as built. */
function MeasureAgain({ jobId, dimension }: { readonly jobId: string; readonly dimension: string }) {
  const { assemble } = useWords();
  const router = useRouter();
  const href = `/bench/${jobId}/measure?dimension=${encodeURIComponent(dimension)}&round=as+built`;
  return (
    <a
      className={buttonClass('plain', true)}
      href={href}
      onClick={(event) => {
        event.preventDefault();
        router.history.push(href);
      }}
    >
      {assemble.lash.measure}
    </a>
  );
}

function LashKeying({
  valve,
  gauges,
  keyed,
  onKeyed,
}: {
  readonly valve: ValveStanding;
  readonly gauges: readonly BenchInstrument[];
  readonly keyed: BladesKeyed | null;
  readonly onKeyed: (keyed: BladesKeyed | null) => void;
}) {
  const { assemble, measure } = useWords();
  const format = useFormat();
  const set = gauges.find(({ blades }) => blades.length > 0);
  if (keyed === null && valve.lash !== null) {
    const { low, high } = valve.lash;
    return (
      <div className="acts">
        <b>{assemble.lash.measured(format.decimal(low), high === null ? '…' : format.decimal(high))}</b>
        <Button onClick={() => onKeyed(noBlades)}>{assemble.lash.keyBlades}</Button>
      </div>
    );
  }
  const blades = keyed ?? noBlades;
  return (
    <>
      {valve.lash === null ? (
        <p>{assemble.lash.notMeasured}</p>
      ) : (
        <Button onClick={() => onKeyed(null)}>{assemble.lash.asMeasured}</Button>
      )}
      <BladeSides keyed={blades} onKeyed={onKeyed} />
      {set === undefined ? (
        <p className="hot">{measure.gauge.none}</p>
      ) : (
        <BladeSet gauge={set} keyed={blades} together={false} near={Number(valve.wanted.value)} onKeyed={onKeyed} />
      )}
    </>
  );
}

/** One valve: its lash, the shim that is in it, and what to do about it. */
export function ValveBench({ jobId, valve, gauges, asked, onAsked }: ValveBenchProps) {
  const { assemble } = useWords();
  const words = assemble.lash;
  const format = useFormat();
  const may = useMay('bench');
  const taking = useWrite<ShimAnswer>();
  const proposing = useMutation<ShimAnswer, Error, ShimQuestion>({
    mutationFn: (question) => send(`/jobs/${jobId}/shim-proposals`, question),
  });
  const [keyed, setKeyed] = useState<BladesKeyed | null>(null);
  const fitted = fittedText(valve, asked);
  const screw = valve.adjuster === 'screw';
  const lash = lashOf(valve, valve.lash === null ? (keyed ?? noBlades) : keyed);
  const ready = lash !== null && (screw || isThickness(fitted));
  const question = (): ShimQuestion | null =>
    lash === null
      ? null
      : { valve: valve.code, lash, fitted: { value: screw ? '1' : fitted.trim().replace(',', '.'), unit: 'mm' } };
  const ask = () => {
    const one = question();
    if (one !== null) proposing.mutate(one, { onSuccess: (answer) => onAsked({ fitted, answer }) });
  };
  const take = () => {
    const one = question();
    if (one === null) return;
    taking.write({ path: `/jobs/${jobId}/shims`, body: one }, () => onAsked({ fitted, answer: undefined }));
  };
  const { range, wanted } = valve;
  return (
    <div className="worked">
      <h2>{valve.name}</h2>
      <p className="caution">{words.caution}</p>
      <p>
        {range === null
          ? words.wantedOnly(format.decimal(wanted.value))
          : words.wanted(format.decimal(wanted.value), format.decimal(range.low), format.decimal(range.high))}
        {'. '}
        <b className={valve.verified === 'out' || valve.verified === 'undecided' ? 'hot' : undefined}>
          {words.verified[valve.verified]}
        </b>
      </p>
      {valve.choice === null ? null : (
        <p>
          {words.taken(
            format.decimal(valve.choice.thickness.value),
            valve.choice.by.name,
            format.since(valve.choice.at),
          )}{' '}
          <span className="note">{valve.choice.words}</span>
        </p>
      )}
      <LashKeying
        valve={valve}
        gauges={gauges}
        keyed={keyed}
        onKeyed={(next) => {
          setKeyed(next);
          onAsked({ fitted, answer: undefined });
        }}
      />
      {screw ? null : (
        <FittedShim
          jobId={jobId}
          valve={valve}
          fitted={fitted}
          may={may}
          onFitted={(text) => onAsked({ fitted: text, answer: undefined })}
          onEnter={() => (ready ? ask() : undefined)}
        />
      )}
      <Button big disabled={!ready || proposing.isPending} onClick={ask}>
        {screw ? words.askTurn : words.ask}
      </Button>
      <Refusal error={proposing.error} />
      {asked?.answer === undefined ? null : (
        <ShimAnswerPanel
          answer={asked.answer}
          mayTake={may && !taking.busy && !screw}
          onTake={'movesFrom' in asked.answer ? null : take}
        />
      )}
      <Refusal error={taking.error} />
      <MeasureAgain jobId={jobId} dimension={valve.dimension} />
    </div>
  );
}
