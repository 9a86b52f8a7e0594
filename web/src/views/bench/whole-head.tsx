import { useMutation } from '@tanstack/react-query';
import type { AssemblyPage, HeadShimsAnswer, HeadShimsQuestion, ValveStanding } from '#contracts/assembly.ts';
import { send } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type Asked, isThickness } from './lash-valves.ts';

interface WholeHeadProps {
  readonly page: AssemblyPage;
  readonly asked: Readonly<Record<string, Asked>>;
  readonly onAsked: (asked: Readonly<Record<string, Asked>>) => void;
  /** The answer that the board shows now, none when something was keyed since. */
  readonly answer: HeadShimsAnswer | undefined;
  readonly onAnswer: (answer: HeadShimsAnswer | undefined) => void;
}

const fittedOf = (valve: ValveStanding, asked: Asked | undefined): string =>
  asked?.fitted ?? valve.choice?.thickness.value ?? '';

/** All valves with shims at once: what is still to be measured, what would do for all of them, and taking it. */
export function WholeHead({ page, asked, onAsked, answer, onAnswer }: WholeHeadProps) {
  const words = useWords().assemble.lash.head;
  const may = useMay('bench');
  const taking = useWrite<HeadShimsAnswer>();
  const proposing = useMutation<HeadShimsAnswer, Error, HeadShimsQuestion>({
    mutationFn: (question) => send(`/jobs/${page.jobId}/head-shim-proposals`, question),
  });
  const valves = page.valves.filter(({ adjuster }) => adjuster !== 'screw');
  if (valves.length < 2) return null;
  const missing = valves.filter((one) => one.lash === null || !isThickness(fittedOf(one, asked[one.code])));
  const question = (): HeadShimsQuestion => ({
    valves: valves.map((one) => ({
      valve: one.code,
      fitted: { value: fittedOf(one, asked[one.code]).trim().replace(',', '.'), unit: 'mm' },
    })),
  });
  const shown = (answers: HeadShimsAnswer['valves']) => ({
    ...asked,
    ...Object.fromEntries(
      valves.map((one): [string, Asked] => [
        one.code,
        { fitted: fittedOf(one, asked[one.code]), answer: answers.find(({ valve }) => valve === one.code) },
      ]),
    ),
  });
  const ask = () =>
    proposing.mutate(question(), {
      onSuccess: (found) => {
        onAsked(shown(found.valves));
        onAnswer(found);
      },
    });
  const take = (seen: string) =>
    taking.write({ path: `/jobs/${page.jobId}/head-shims`, body: { ...question(), seen } }, () => {
      onAsked(shown([]));
      onAnswer(undefined);
    });
  const anyShim = answer?.valves.some(({ chosen }) => chosen !== null) === true;
  return (
    <section className="whole-head" aria-label={words.title}>
      {missing.length === 0 ? null : <p className="note">{words.missing(missing.map(({ name }) => name))}</p>}
      <Button big disabled={missing.length > 0 || proposing.isPending} onClick={ask}>
        {words.ask}
      </Button>
      <Refusal error={proposing.error} />
      {answer === undefined ? null : (
        <div aria-live="polite">
          <p>
            <b>{words.found(answer)}</b> {words.from(answer)}
          </p>
          {answer.comeOut.length === 0 ? null : <p className="note">{words.comeOut(answer.comeOut)}</p>}
          {answer.askedFor.length === 0 ? null : <p className="hot">{words.askedFor(answer.askedFor)}</p>}
          <Button
            big
            kind="main"
            disabled={!may || taking.busy || !anyShim || answer.askedFor.length > 0}
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
