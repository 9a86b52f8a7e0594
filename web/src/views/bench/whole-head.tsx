import { useMutation, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { AssemblyPage, ValveStanding } from '#contracts/assembly.ts';
import type { HeadsBeside, HeadsShimsAnswer, HeadsShimsQuestion } from '#contracts/head-shims.ts';
import { read, send } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { HeadChoices } from './head-choices.tsx';
import { type Asked, fittedText, isThickness } from './lash-valves.ts';

type Beside = HeadsBeside['items'];

interface WholeHeadProps {
  readonly page: AssemblyPage;
  readonly asked: Readonly<Record<string, Asked>>;
  readonly onAsked: (asked: Readonly<Record<string, Asked>>) => void;
  /** The answer that the board shows now, none when something was keyed since. */
  readonly answer: HeadsShimsAnswer | undefined;
  readonly onAnswer: (answer: HeadsShimsAnswer | undefined) => void;
}

interface BesideProps {
  readonly items: Beside;
  readonly together: readonly string[];
  readonly onTogether: (jobIds: readonly string[]) => void;
}

/** Engines that draw on the same bins: those that are measured can be chosen for together with this one. */
function OtherHeads({ items, together, onTogether }: BesideProps) {
  const words = useWords().assemble.lash.head;
  if (items.length === 0) return null;
  return (
    <fieldset className="other-heads">
      <legend>{words.beside}</legend>
      {items.map(({ jobId, job, serial, missing }) => (
        <label key={jobId}>
          <input
            type="checkbox"
            disabled={missing.length > 0}
            checked={together.includes(jobId)}
            onChange={({ target }) =>
              onTogether(target.checked ? [...together, jobId] : together.filter((one) => one !== jobId))
            }
          />
          <span>
            {words.besideOne(job, serial)}
            {missing.length === 0 ? null : <span className="note"> {words.besideMissing(missing)}</span>}
          </span>
        </label>
      ))}
    </fieldset>
  );
}

/** All valves with shims at once: what is still to be measured, what would do for all of them, and taking it. */
export function WholeHead({ page, asked, onAsked, answer, onAnswer }: WholeHeadProps) {
  const words = useWords().assemble.lash.head;
  const may = useMay('bench');
  const [together, setTogether] = useState<readonly string[]>([]);
  const [without, setWithout] = useState<readonly string[]>([]);
  const taking = useWrite<HeadsShimsAnswer>();
  const proposing = useMutation<HeadsShimsAnswer, Error, HeadsShimsQuestion>({
    mutationFn: (question) => send('/head-shim-proposals', question),
  });
  const beside = useQuery({
    queryKey: ['heads-beside', page.jobId],
    queryFn: ({ signal }) => read<HeadsBeside>(`/jobs/${page.jobId}/heads-beside`, signal),
    meta: { follows: 'every change' },
  });
  const valves = page.valves.filter(({ adjuster }) => adjuster !== 'screw');
  if (valves.length < 2) return null;
  const missing = valves.filter((one) => one.lash === null || !isThickness(fittedText(one, asked[one.code])));
  const others = (beside.data?.items ?? []).filter(({ jobId }) => together.includes(jobId));
  const question = (leftOut: readonly string[]): HeadsShimsQuestion => ({
    heads: [
      { jobId: page.jobId, valves: valves.map((one) => valveAsked(one, asked[one.code])) },
      ...others.map(({ jobId, valves: theirs }) => ({ jobId, valves: theirs.map(({ code }) => ({ valve: code })) })),
    ],
    ...(leftOut.length === 0 ? {} : { without: [...leftOut] }),
  });
  const shown = (found: HeadsShimsAnswer | undefined) => {
    const answers = found?.heads.find(({ jobId }) => jobId === page.jobId)?.valves ?? [];
    onAnswer(found);
    onAsked({
      ...asked,
      ...Object.fromEntries(
        valves.map((one): [string, Asked] => [
          one.code,
          {
            fitted: fittedText(one, asked[one.code]),
            answer: answers.find(({ valve }) => valve === one.code),
          },
        ]),
      ),
    });
  };
  const ask = (leftOut: readonly string[] = without) => {
    setWithout(leftOut);
    proposing.mutate(question(leftOut), { onSuccess: shown });
  };
  const take = (seen: string) =>
    taking.write({ path: '/head-shims', body: { ...question(without), seen } }, () => {
      setWithout([]);
      shown(undefined);
    });
  return (
    <section className="whole-head" aria-label={words.title}>
      {missing.length === 0 ? null : <p className="note">{words.missing(missing.map(({ name }) => name))}</p>}
      <OtherHeads
        items={beside.data?.items ?? []}
        together={together}
        onTogether={(jobIds) => {
          setTogether(jobIds);
          if (answer !== undefined) shown(undefined);
        }}
      />
      <Button big disabled={missing.length > 0 || proposing.isPending} onClick={() => ask()}>
        {words.ask(others.length + 1)}
      </Button>
      <Refusal error={proposing.error} />
      {answer === undefined ? null : (
        <div aria-live="polite">
          <p>
            <b>{words.found(answer)}</b> {words.from(answer)}
          </p>
          <HeadChoices answer={answer} own={page.jobId} onNotThere={(lotId) => ask([...without, lotId])} />
          <Button
            big
            kind="main"
            disabled={
              !may || taking.busy || !answer.heads.some((one) => one.valves.some(({ chosen }) => chosen !== null))
            }
            onClick={() => take(answer.seen)}
          >
            {words.take}
          </Button>
        </div>
      )}
      <Refusal error={taking.error} />
    </section>
  );
}

const valveAsked = (valve: ValveStanding, asked: Asked | undefined) => ({
  valve: valve.code,
  fitted: { value: fittedText(valve, asked).trim().replace(',', '.'), unit: 'mm' },
});
