import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { FindingSimulation, FindingSimulations } from '#contracts/finding-simulations.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { faultAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type DrawnFindingProps, DrawnResult } from './drawn-result.tsx';
import './drawn-finding.css';

type Bounds = { readonly low: Figure | null; readonly high: Figure | null };
type Figure = { readonly value: string };

/** The bounds that a verdict is held against: on a side without a service limit the standard bound. */
export const limitsDrawn = ({ standard, service }: { readonly standard: Bounds; readonly service: Bounds }) =>
  (
    [
      ['lower', service.low ?? standard.low],
      ['upper', service.high ?? standard.high],
    ] as const
  ).flatMap(([side, bound]) => (bound === null ? [] : [{ side, value: bound.value }]));

const fewest = 1000;
const most = 200_000;
const largestSeed = 4_294_967_295;
const whole = (text: string, [low, high]: readonly [number, number]): number | undefined => {
  const value = /^\d{1,10}$/.test(text.trim()) ? Number(text.trim()) : Number.NaN;
  return value >= low && value <= high ? value : undefined;
};

/** A kept finding drawn by chance: what came of it, and the means to draw it again. */
export function DrawnFinding(props: DrawnFindingProps) {
  const { drawnFinding: words } = useWords();
  const format = useFormat();
  const may = useMay('bench');
  const drawings = useQuery({
    queryKey: ['finding-simulations', props.findingId],
    queryFn: ({ signal }) => read<FindingSimulations>(`/findings/${props.findingId}/simulations`, signal),
  });
  const items = drawings.data?.items;
  const [chosen, setChosen] = useState<string>();
  const shown = items?.find(({ id }) => id === chosen) ?? items?.[0];
  return (
    <section className="drawn-finding" aria-labelledby="drawn-by-chance">
      <h3 id="drawn-by-chance">{words.title}</h3>
      <p className="note">{words.why}</p>
      {drawings.isError && items === undefined ? (
        <Failed error={drawings.error} again={() => void drawings.refetch()} />
      ) : items === undefined ? (
        <Skeleton label={words.reading} lines={3} />
      ) : shown === undefined ? (
        may ? null : (
          <p>{words.mayNot}</p>
        )
      ) : (
        <DrawnResult {...props} drawn={shown} />
      )}
      {may ? <DrawForm findingId={props.findingId} onDrawn={({ id }) => setChosen(id)} /> : null}
      {items === undefined || items.length < 2 ? null : (
        <div>
          <h4>{words.earlier}</h4>
          <ul className="drawn-before">
            {items
              .filter(({ id }) => id !== shown?.id)
              .slice(0, 6)
              .map(({ id, trials, seed, madeBy, madeAt }) => (
                <li key={id}>
                  <Button onClick={() => setChosen(id)}>
                    {words.by(format.number(trials), String(seed), madeBy.name, format.since(madeAt))}
                  </Button>
                </li>
              ))}
          </ul>
        </div>
      )}
    </section>
  );
}

interface DrawFormProps {
  readonly findingId: string;
  readonly onDrawn: (drawn: FindingSimulation) => void;
}

function DrawForm({ findingId, onDrawn }: DrawFormProps) {
  const { drawnFinding: words } = useWords();
  const format = useFormat();
  const [trials, setTrials] = useState('20000');
  const [seed, setSeed] = useState('1');
  const writing = useWrite<FindingSimulation>();
  const [count, start] = [whole(trials, [fewest, most]), whole(seed, [0, largestSeed])];
  const chosenForMe = seed.trim() === '';
  const ready = count !== undefined && (start !== undefined || chosenForMe) && !writing.busy;
  return (
    <form
      className="draw-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        writing.write(
          {
            path: `/findings/${findingId}/simulations`,
            body: { trials: count, ...(start === undefined ? {} : { seed: start }) },
          },
          onDrawn,
        );
      }}
    >
      <Field
        label={words.trials}
        error={count === undefined ? words.badTrials(format.number(most)) : faultAt(writing.error, '/trials')}
      >
        {(input) => (
          <input
            {...input}
            inputMode="numeric"
            maxLength={7}
            value={trials}
            onChange={({ target }) => setTrials(target.value)}
          />
        )}
      </Field>
      <Field
        label={words.seed}
        hint={words.seedHint}
        error={start === undefined && !chosenForMe ? words.badSeed : faultAt(writing.error, '/seed')}
      >
        {(input) => (
          <input
            {...input}
            inputMode="numeric"
            maxLength={10}
            value={seed}
            onChange={({ target }) => setSeed(target.value)}
          />
        )}
      </Field>
      <Button type="submit" big disabled={!ready}>
        {writing.busy ? words.drawing : words.draw}
      </Button>
      {faultAt(writing.error, '/trials') === undefined ? <Refusal error={writing.error} /> : null}
    </form>
  );
}
