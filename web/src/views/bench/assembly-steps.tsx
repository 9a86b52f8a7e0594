import { useQuery } from '@tanstack/react-query';
import type { AssemblyPage } from '#contracts/assembly.ts';
import { useWords, type Words } from '../../words/words.tsx';
import { closingQuery } from './assembly-query.ts';

export type AssemblyStep = 'rings' | 'fasteners' | 'lash' | 'prove';

interface StepState {
  readonly words: string;
  readonly done: boolean;
  /** Something stands against the rule. */
  readonly hot: boolean;
}

function ringsState(page: AssemblyPage, { assemble: { state } }: Words): StepState {
  if (page.rings.length === 0) return { words: state.none, done: true, hot: false };
  if (page.ringsPlaced === null) return { words: state.ringsOpen, done: false, hot: page.ringsRequired };
  const faulty = page.rings.some(({ faults }) => faults.length > 0);
  return { words: faulty ? state.ringsFaulty : state.ringsPlaced, done: !faulty, hot: faulty };
}

function setsState(page: AssemblyPage, { assemble: { state } }: Words): StepState {
  const asked = page.sets.some(({ required }) => required) ? page.sets.filter(({ required }) => required) : page.sets;
  if (asked.length === 0) return { words: state.none, done: true, hot: false };
  const done = asked.filter(({ complete }) => complete).length;
  return { words: state.sets(done, asked.length), done: done === asked.length, hot: false };
}

function lashState(page: AssemblyPage, { assemble: { state } }: Words): StepState {
  if (page.valves.length === 0) return { words: state.none, done: true, hot: false };
  const well = page.valves.filter(({ verified }) => verified === 'in-range').length;
  const out = page.valves.some(({ verified }) => verified === 'out');
  return { words: state.lash(well, page.valves.length), done: well === page.valves.length, hot: out };
}

interface AssemblyStepsProps {
  readonly page: AssemblyPage;
  readonly step: AssemblyStep;
  readonly onStep: (step: AssemblyStep) => void;
}

/** What is set at this bench, and how far each is: any of them may be taken up at any time. */
export function AssemblySteps({ page, step, onStep }: AssemblyStepsProps) {
  const words = useWords();
  const { assemble } = words;
  const { data: closing } = useQuery(closingQuery(page.jobId, page.openingId));
  const prove: StepState =
    page.openingId === null || (closing?.closed ?? null) !== null
      ? { words: assemble.state.closed, done: true, hot: false }
      : closing === undefined
        ? { words: '', done: false, hot: false }
        : closing.mayClose
          ? { words: assemble.state.mayClose, done: false, hot: false }
          : { words: assemble.state.reasons(closing.reasons.length), done: false, hot: false };
  const all = [
    ['rings', ringsState(page, words)],
    ['fasteners', setsState(page, words)],
    ['lash', lashState(page, words)],
    ['prove', prove],
  ] as const;
  return (
    <nav className="assemble-steps" aria-label={assemble.steps}>
      {all.map(([name, state]) => (
        <button
          key={name}
          type="button"
          className={state.done ? 'assemble-step done' : 'assemble-step'}
          aria-current={step === name ? 'step' : undefined}
          onClick={() => onStep(name)}
        >
          <i aria-hidden="true" />
          <span>
            <b>{assemble.step[name]}</b>
            <span className={state.hot ? 'hot' : 'note'}>{state.words}</span>
          </span>
        </button>
      ))}
    </nav>
  );
}
