import type { CountDecided, HandedIn } from '#contracts/counts.ts';
import { useWords } from '../../../words/words.tsx';

/** What a round came to when it was handed in. */
export function Handed({ handed }: { readonly handed: HandedIn }) {
  const { outcome: words } = useWords().counts;
  const parts = [
    handed.right > 0 ? words.right(handed.right) : '',
    handed.adjusted > 0 ? words.adjusted(handed.adjusted) : '',
    handed.again > 0 ? words.again(handed.again) : '',
    handed.toDecide > 0 ? words.toDecide(handed.toDecide) : '',
  ].filter((text) => text !== '');
  return (
    <div className="count-note" role="status">
      <p>
        <b>{words.title}.</b> {parts.join('; ')}
        {parts.length === 0 ? '' : '.'}
      </p>
      <TakenBackList shortages={handed.shortages} />
    </div>
  );
}

/** Whose promised pieces were not there. */
export function TakenBackList({ shortages }: Pick<CountDecided, 'shortages'>) {
  const { outcome: words } = useWords().counts;
  if (shortages.length === 0) return null;
  return (
    <>
      <p>{words.short}</p>
      <ul className="plain">
        {shortages.map(({ demandLineId, part, missing, job }) => (
          <li key={demandLineId} className="hot">
            {words.shortOf(part.name, missing, `${job.family} ${job.serial}`)}
          </li>
        ))}
      </ul>
    </>
  );
}
