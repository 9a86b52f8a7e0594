import { useQuery } from '@tanstack/react-query';
import type { Outlook } from '#contracts/obligations.ts';
import type { PartName } from '#contracts/parts.ts';
import type { DispositionKind } from '#domain/obligations/disposition.ts';
import { read } from '../../app/api.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** Which of the pistons a decision is about: boring is for those that it would make fit. */
function pistonsFor(kind: DispositionKind, { pistons }: Outlook): Outlook['pistons'] {
  return kind === 'bore' || kind === 'hone' ? pistons.filter(({ remove }) => remove !== null) : pistons;
}

interface OutlookProps {
  readonly obligationId: string;
  readonly kind: DispositionKind;
  /** Takes the smallest size that will do, and asks for its part. */
  readonly onTake: (size: string, part: PartName | null) => void;
}

/** What the decision would come to, worked out from what is measured now; nothing where it is about no bore. */
export function DecisionOutlook({ obligationId, kind, onTake }: OutlookProps) {
  const words = useWords().engine.outlook;
  const format = useFormat();
  const outlook = useQuery({
    queryKey: ['outlook', obligationId],
    queryFn: ({ signal }) => read<Outlook>(`/obligations/${obligationId}/outlook`, signal),
    meta: { follows: 'every change' },
  }).data;
  if (outlook === undefined || outlook.bore === null) return null;
  const { bore, metalLeft } = outlook;
  const pistons = pistonsFor(kind, outlook);
  const isWork = kind === 'bore' || kind === 'hone';
  return (
    <section className="outlook" aria-label={words.title}>
      <b>{words.title}</b>
      <p className="note">
        {words.now(bore.name, format.decimal(bore.widest.value), bore.widest.unit)}
        {isWork && metalLeft !== null
          ? ` ${words.metal(format.decimal(metalLeft.onDiameter.value), metalLeft.onDiameter.unit)}`
          : ''}
      </p>
      <ul>
        {pistons.map(({ sizeClass, words: said, outlook: lies }) => (
          <li key={sizeClass} className={!isWork && lies === 'outside' ? 'note' : ''}>
            {said}
          </li>
        ))}
        {isWork
          ? outlook.gaps.map(({ name, sizeClass, words: said }) => <li key={`${name} ${sizeClass}`}>{said}</li>)
          : null}
      </ul>
      {kind === 'bore' && outlook.choice !== null ? <Oversize choice={outlook.choice} onTake={onTake} /> : null}
      {isWork && pistons.length === 0 ? <p className="hot">{words.noneFits}</p> : null}
    </section>
  );
}

interface OversizeProps {
  readonly choice: NonNullable<Outlook['choice']>;
  readonly onTake: OutlookProps['onTake'];
}

/** The smallest size that will do, and why no smaller one: one tap decides on it and asks for its part. */
function Oversize({ choice, onTake }: OversizeProps) {
  const words = useWords().engine.outlook;
  const { sizeClass, part } = choice;
  return (
    <>
      <p>
        <b>{choice.words}</b>
      </p>
      {sizeClass === null ? null : (
        <Button onClick={() => onTake(sizeClass, part)}>
          {part === null ? words.take(sizeClass) : words.takeWith(sizeClass, part.number)}
        </Button>
      )}
    </>
  );
}
