import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Outlook } from '#contracts/obligations.ts';
import { read } from '../../app/api.ts';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Resurfacing = NonNullable<Outlook['resurfacing']>;

const cutForm = /^\d(?:[.,]\d{1,4})?$/;
const gasketForm = /^-?\d(?:[.,]\d{1,4})?$/;

/** What the cut would come to: one line a figure, and what can't be told. */
function Foreseen({ of }: { readonly of: Resurfacing }) {
  const words = useWords().engine.outlook;
  const format = useFormat();
  const { ratio, squish, allowance, missing, assumed } = of;
  const mm = (quantity: { readonly value: string; readonly unit: string }) =>
    `${format.decimal(quantity.value)} ${quantity.unit}`;
  const meets = squish !== null && Number(squish.after.low) <= 0;
  return (
    <>
      <ul>
        {ratio === null ? null : <li>{words.ratio(format.number(ratio.before, 2), format.number(ratio.after, 2))}</li>}
        {squish === null ? null : (
          <li className={meets ? 'hot' : ''}>
            {words.squish(
              mm(squish.before),
              squish.after.low === squish.after.high
                ? `${format.decimal(squish.after.low)} ${squish.after.unit}`
                : words.between(
                    format.decimal(squish.after.low),
                    format.decimal(squish.after.high ?? squish.after.low),
                    squish.after.unit,
                  ),
            )}
            {meets ? ` ${words.meets}` : ''}
          </li>
        )}
        {allowance === null ? null : (
          <li className={allowance.enough ? '' : 'hot'}>
            {words.allowance(allowance.name, mm(allowance.height), mm(allowance.least))}{' '}
            {allowance.enough
              ? words.leftAfter(mm(allowance.left), mm(allowance.leftAfter))
              : words.notEnough(mm(allowance.left))}
          </li>
        )}
      </ul>
      {of.tooMuch ? <p className="hot">{words.tooMuch}</p> : null}
      {missing.length === 0 ? null : <p>{words.missing(missing)}</p>}
      {assumed.length === 0 ? null : <p className="note">{assumed.join(' ')}</p>}
      <p className="note">{of.caution}</p>
    </>
  );
}

/** What cutting the face would do to compression ratio, squish and what may still come off; both figures can be tried. */
export function ResurfacingOutlook({ obligationId }: { readonly obligationId: string }) {
  const words = useWords().engine.outlook;
  const [remove, setRemove] = useState('');
  const [gasket, setGasket] = useState('');
  const faults = {
    remove: remove !== '' && !cutForm.test(remove),
    gasket: gasket !== '' && !gasketForm.test(gasket),
  };
  const asked = new URLSearchParams({
    ...(remove === '' || faults.remove ? {} : { remove }),
    ...(gasket === '' || faults.gasket ? {} : { gasket }),
  }).toString();
  const found = useQuery({
    queryKey: ['outlook', obligationId, asked],
    queryFn: ({ signal }) =>
      read<Outlook>(`/obligations/${obligationId}/outlook${asked === '' ? '' : `?${asked}`}`, signal),
    placeholderData: keepPreviousData,
    meta: { follows: 'every change' },
  }).data?.resurfacing;
  if (found === undefined || found === null) return null;
  return (
    <section className="outlook" aria-label={words.title}>
      <b>{words.title}</b>
      <div className="outlook-tried">
        <Field
          label={words.remove}
          hint={
            found.leastCut === null
              ? words.removeHint
              : words.leastCut(`${found.leastCut.value} ${found.leastCut.unit}`)
          }
          error={faults.remove ? words.millimetres : undefined}
        >
          {(input) => (
            <input
              {...input}
              inputMode="decimal"
              value={remove}
              placeholder={found.leastCut?.value ?? '0'}
              onChange={(event) => setRemove(event.target.value.trim())}
            />
          )}
        </Field>
        <Field label={words.gasket} hint={words.gasketHint} error={faults.gasket ? words.millimetres : undefined}>
          {(input) => (
            <input
              {...input}
              inputMode="text"
              value={gasket}
              placeholder="0"
              onChange={(event) => setGasket(event.target.value.trim())}
            />
          )}
        </Field>
      </div>
      <Foreseen of={found} />
    </section>
  );
}
