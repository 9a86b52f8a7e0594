import type { OpeningNow } from '#contracts/floor.ts';
import { Span } from '../../app/now.tsx';
import { depthInWords } from '../../drawings/section/section.tsx';
import { useWords } from '../../words/words.tsx';
import { CoverButton } from './cover-button.tsx';

/** How far open, covered or not, for how long. Uncovered it is the loudest thing on the screen. */
export function DepthStrip({ opening }: { readonly opening: OpeningNow | null }) {
  const words = useWords().procedure;
  if (opening === null) {
    return (
      <section className="depth-strip" aria-label={words.howOpen}>
        <p>{words.depth.closed}</p>
      </section>
    );
  }
  const [depth] = depthInWords(opening.depth, opening.covered).split(', ');
  return (
    <section className={opening.covered ? 'depth-strip' : 'depth-strip loud'} aria-label={words.howOpen}>
      <p>
        <b className="depth-name">{depth}</b>{' '}
        <span className="nowrap">
          {words.openFor} <Span from={opening.openSince} />
        </span>
      </p>
      <p>
        <b>{opening.covered ? words.covered : words.uncovered}</b>{' '}
        <span className="nowrap">
          {words.since} <Span from={opening.coveredOrNotSince} />
        </span>
      </p>
      <CoverButton opening={opening} />
    </section>
  );
}
