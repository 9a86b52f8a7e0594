import { queryOptions, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Part, PartName } from '#contracts/parts.ts';
import type { PartInstead } from '#contracts/parts-instead.ts';
import { read } from '../../app/api.ts';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { AlternativeDialog } from './alternative-dialog.tsx';
import { SupersedeDialog } from './supersede-dialog.tsx';
import { type Withdrawal, WithdrawDialog } from './withdraw-dialog.tsx';
import './part-instead.css';

const insteadQuery = (partId: string) =>
  queryOptions({
    queryKey: ['parts', partId, 'instead'],
    queryFn: ({ signal }) => read<PartInstead>(`/parts/${partId}/instead`, signal),
  });

interface SectionProps {
  readonly part: Part;
  readonly onPart: (partId: string) => void;
}

/** What may be fitted in the place of a part: the chain that replaced it, and alternatives with their conditions. */
export function PartInsteadSection({ part, onPart }: SectionProps) {
  const { partsInstead: words } = useWords();
  const may = useMay('stores') && !part.retired;
  const [doing, setDoing] = useState<'supersede' | 'alternative' | Withdrawal | null>(null);
  const instead = useQuery(insteadQuery(part.id)).data;
  if (instead === undefined) return null;
  const { chain, replaces, alternatives, alternativeTo } = instead;
  const nothing = chain.length + replaces.length + alternatives.length + alternativeTo.length === 0;
  const close = () => setDoing(null);
  return (
    <section>
      <h3>{words.title}</h3>
      {nothing ? <p className="nothing">{words.nothing}</p> : null}
      <Chain part={part} instead={instead} onPart={onPart} />
      <Alternatives
        instead={instead}
        onPart={onPart}
        onWithdraw={may ? (other) => setDoing({ kind: 'alternative', part, other }) : null}
      />
      {may ? (
        <div className="kit-acts">
          <Button onClick={() => setDoing('supersede')}>
            {chain.length === 0 ? words.supersede : words.supersedeAgain}
          </Button>
          {chain[0] === undefined ? null : (
            <Button
              aria-label={words.withdrawOf(chain[0].part.name)}
              onClick={() => setDoing({ kind: 'supersession', part, other: chain[0]?.part ?? part })}
            >
              {words.withdraw}
            </Button>
          )}
          <Button onClick={() => setDoing('alternative')}>{words.nameAlternative}</Button>
        </div>
      ) : null}
      {doing === 'supersede' ? <SupersedeDialog part={part} onClose={close} /> : null}
      {doing === 'alternative' ? <AlternativeDialog part={part} onClose={close} /> : null}
      {doing !== null && typeof doing === 'object' ? <WithdrawDialog what={doing} onClose={close} /> : null}
    </section>
  );
}

interface ShownProps {
  readonly instead: PartInstead;
  readonly onPart: (partId: string) => void;
}

/** The chain as it is walked: this part, what replaced it, what replaced that; and before it what it replaces itself. */
function Chain({ part, instead, onPart }: ShownProps & { readonly part: PartName }) {
  const { partsInstead: words } = useWords();
  const { chain, replaces, servedBy } = instead;
  return (
    <>
      {chain.length === 0 ? null : (
        <>
          <ol className="part-chain" aria-label={words.chain}>
            <li>
              <b className="num">{part.number}</b>
              <span className="note">{words.self}</span>
            </li>
            {chain.map(({ part: next, oldStock, available }) => (
              <li key={next.id}>
                <PartLink part={next} onPart={onPart} />
                <span className="note">
                  {words.available(available)}, {words.oldStock[oldStock]}
                </span>
              </li>
            ))}
          </ol>
          <p>{words.serves(servedBy.map(({ number }) => number))}</p>
        </>
      )}
      {replaces.length === 0 ? null : (
        <dl className="part-ties">
          <dt>{words.replaces}</dt>
          {replaces.map(({ part: old, oldStock }) => (
            <dd key={old.id}>
              <PartLink part={old} onPart={onPart} /> <span className="note">{words.oldStock[oldStock]}</span>
            </dd>
          ))}
        </dl>
      )}
    </>
  );
}

function Alternatives({
  instead,
  onPart,
  onWithdraw,
}: ShownProps & { readonly onWithdraw: ((other: PartName) => void) | null }) {
  const { partsInstead: words } = useWords();
  const format = useFormat();
  const { alternatives, alternativeTo } = instead;
  return (
    <dl className="part-ties">
      {alternatives.length === 0 ? null : (
        <>
          <dt>
            {words.alternatives} <span className="note">{words.alternativeWhy}</span>
          </dt>
          {alternatives.map(({ part, condition, available, by, at }) => (
            <dd key={part.id} className="part-tie">
              <span>
                <PartLink part={part} onPart={onPart} /> {condition}{' '}
                <span className="note">
                  {words.available(available)}; {words.told(by, format.date(at))}
                </span>
              </span>
              {onWithdraw === null ? null : (
                <Button aria-label={words.withdrawOf(part.name)} onClick={() => onWithdraw(part)}>
                  {words.withdraw}
                </Button>
              )}
            </dd>
          ))}
        </>
      )}
      {alternativeTo.length === 0 ? null : (
        <>
          <dt>{words.alternativeTo}</dt>
          {alternativeTo.map(({ part, condition }) => (
            <dd key={part.id}>
              <PartLink part={part} onPart={onPart} /> {condition}
            </dd>
          ))}
        </>
      )}
    </dl>
  );
}

function PartLink({ part, onPart }: { readonly part: PartName; readonly onPart: (partId: string) => void }) {
  return (
    <button type="button" className="part-link" onClick={() => onPart(part.id)}>
      <b>{part.name}</b> <span className="note num">{part.number}</span>
    </button>
  );
}
