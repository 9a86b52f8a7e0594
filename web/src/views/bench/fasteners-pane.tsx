import { useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import type { AssemblyPage, FastenerSetStanding } from '#contracts/assembly.ts';
import { Choice } from '../../kit/choice.tsx';
import { useWords } from '../../words/words.tsx';
import { PullBench } from './pull-bench.tsx';

const pullsOf = ({ stages }: FastenerSetStanding): readonly [done: number, of: number] => [
  stages.reduce((sum, { done }) => sum + done.length, 0),
  stages.reduce((sum, { done, missing }) => sum + done.length + missing.length, 0),
];

/** The set to begin with: the one somebody was led to, else of those asked for the first that isn't complete. */
const firstOf = (sets: readonly FastenerSetStanding[], led: unknown): FastenerSetStanding | undefined =>
  sets.find(({ code }) => code === led) ??
  sets.find(({ required, complete }) => required && !complete) ??
  sets.find(({ complete }) => !complete) ??
  sets[0];

interface FastenersPaneProps {
  readonly page: AssemblyPage;
}

/** The fastener sets of the sheet: choose one, then pull it position by position. */
export function FastenersPane({ page }: FastenersPaneProps) {
  const { assemble } = useWords();
  const words = assemble.fasteners;
  const { set: led }: { set?: unknown } = useSearch({ strict: false });
  const [code, setCode] = useState(() => firstOf(page.sets, led)?.code ?? null);
  const set = page.sets.find((one) => one.code === code) ?? page.sets[0];
  if (set === undefined) return <p className="state empty">{assemble.state.none}</p>;
  const options = page.sets.map((one) => ({
    value: one.code,
    label: one.name,
    note: [
      one.complete ? words.complete : words.pulls(...pullsOf(one)),
      ...(one.required ? [] : [words.notRequired]),
    ].join(', '),
  }));
  const isHead = set.code.startsWith('head') && set.positions.length >= 4 && page.valves.length === 4;
  return (
    <section className="fasteners-pane">
      <Choice label={words.sets} value={set.code} onChange={setCode} options={options} />
      <PullBench key={set.code} jobId={page.jobId} set={set} wrenches={page.wrenches} head={isHead} />
    </section>
  );
}
