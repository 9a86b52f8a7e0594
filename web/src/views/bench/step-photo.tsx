import type { ReactNode } from 'react';
import type { RunStep } from '#contracts/procedure-runs.ts';
import { useWords } from '../../words/words.tsx';

/** The step asks for a photo, is to be done, and has none that stands. */
export const lacksPhoto = ({ photo, photos, standing }: RunStep): boolean =>
  photo !== '' && photos === 0 && standing === 'to do';

/** Photos of the step; where it asks for one, what it has to show and whether it is there. */
export function StepPhoto({ step, children }: { readonly step: RunStep; readonly children: ReactNode }) {
  const { photoPoint: words } = useWords().procedure;
  if (step.photo === '') return children;
  const without = step.marks.findLast(({ mark, round }) => mark === 'done' && round === step.round)?.noPhoto ?? '';
  const standing = step.photos > 0 ? words.taken(step.photos) : without === '' ? words.asked : words.without(without);
  return (
    <section className={lacksPhoto(step) ? 'step-photo is-asked' : 'step-photo'} aria-label={words.title}>
      <h2>{words.title}</h2>
      <p>{step.photo}</p>
      <p className="note" role="status">
        {standing}
      </p>
      {children}
    </section>
  );
}
