import { keepPreviousData, queryOptions, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PartPromise } from '#contracts/promising.ts';
import { read } from '../../app/api.ts';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { PromiseSteps } from './promise-steps.tsx';
import './part-instead.css';

interface Asked {
  readonly on: string;
  readonly quantity: string;
}

const promiseQuery = (partId: string, { on, quantity }: Asked) => {
  const asked = new URLSearchParams({
    ...(on === '' ? {} : { on }),
    ...(/^[1-9]\d{0,4}$/.test(quantity) ? { quantity } : {}),
  });
  return queryOptions({
    queryKey: ['parts', partId, 'promise', asked.toString()],
    queryFn: ({ signal }) => read<PartPromise>(`/parts/${partId}/promise?${asked}`, signal),
    placeholderData: keepPreviousData,
  });
};

/** What can be promised of a part, for a day and day by day. */
export function PartPromiseSection({ partId }: { readonly partId: string }) {
  const { promising: words } = useWords().stores;
  const format = useFormat();
  const [asked, setAsked] = useState<Asked>({ on: '', quantity: '1' });
  const promise = useQuery(promiseQuery(partId, asked)).data;
  if (promise === undefined) return null;
  const { days, undated } = promise;
  return (
    <section>
      <h3>{words.title}</h3>
      <div className="promise-asked">
        <Field label={words.day}>
          {(input) => (
            <input
              {...input}
              type="date"
              min={promise.today}
              value={asked.on}
              onChange={({ target }) => setAsked({ ...asked, on: target.value })}
            />
          )}
        </Field>
        <Field label={words.howMany}>
          {(input) => (
            <input
              {...input}
              inputMode="numeric"
              maxLength={5}
              value={asked.quantity}
              onChange={({ target }) => setAsked({ ...asked, quantity: target.value })}
            />
          )}
        </Field>
      </div>
      <p role="status">
        <Answer promise={promise} />
      </p>
      {days.length < 2 ? null : (
        <PromiseSteps
          days={days}
          label={words.drawn(days.map(({ on, promisable }) => words.point(format.day(on), promisable)))}
          short={format.day}
        />
      )}
      {undated === 0 ? null : <p className="note">{words.undated(undated)}</p>}
      <Numbers promise={promise} />
    </section>
  );
}

/** Which numbers serve it, where it was replaced or will be by another; and what would do on a condition. */
function Numbers({ promise }: { readonly promise: PartPromise }) {
  const { promising: words } = useWords().stores;
  const { part, numbers, alternatives } = promise;
  const alone = numbers.every((number) => number.part.id === part.id);
  if (alone && alternatives.length === 0) return null;
  return (
    <dl className="part-ties">
      {alone ? null : <dt>{words.numbers}</dt>}
      {alone
        ? null
        : numbers.map((number) => (
            <dd key={number.part.id}>
              <b className="num">{number.part.number}</b> {words.number(number.free, number.comes)}
            </dd>
          ))}
      {alternatives.length === 0 ? null : <dt>{words.alternatives}</dt>}
      {alternatives.map((other) => (
        <dd key={other.part.id}>
          <b className="num">{other.part.number}</b> {words.alternative(other.promisable, other.condition)}
        </dd>
      ))}
    </dl>
  );
}

function Answer({ promise }: { readonly promise: PartPromise }) {
  const { promising: words } = useWords().stores;
  const format = useFormat();
  const { on, quantity, promisable, firstOn, ifOrderedOn } = promise.asked;
  const now = words.for(promisable, on === promise.today ? null : format.day(on));
  if (promisable >= quantity) return <b>{now}</b>;
  return (
    <>
      <b>{now}</b>{' '}
      {firstOn !== null
        ? words.first(quantity, format.day(firstOn))
        : ifOrderedOn !== null
          ? words.ifOrdered(quantity, format.day(ifOrderedOn))
          : words.never(quantity)}
    </>
  );
}
