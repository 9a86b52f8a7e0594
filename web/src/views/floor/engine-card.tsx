import { Link } from '@tanstack/react-router';
import { useId } from 'react';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { Span } from '../../app/now.tsx';
import { useDrawnSize } from '../../app/use-media.ts';
import { depthInWords } from '../../drawings/section/section.tsx';
import { Waits } from '../../kit/waits.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { waitLabels } from '../engine/wait-labels.ts';

/** `cylinder off, covered, open 2 d 3 h`: how far open, and since when it is. */
export function DepthWords({ opening }: { readonly opening: EngineStanding['opening'] }) {
  const words = useWords();
  if (opening === null) return depthInWords('closed', true);
  const [depth, state] = depthInWords(opening.depth, opening.covered).split(', ');
  return (
    <>
      {depth}, {opening.covered ? state : <b className="hot">{words.floor.uncovered}</b>},{' '}
      <span className="nowrap">
        {words.floor.openFor} <Span from={opening.openSince} />
      </span>
    </>
  );
}

type Props = {
  readonly engine: EngineStanding;
  readonly floor: Floor;
  /** A row of several: the drawing smaller, the words closer. */
  readonly small?: boolean;
};

/** An engine where it stands: drawn as open as it is, who holds it, what it waits for. All of it leads to its page. */
export function EngineCard({ engine, floor, small = false }: Props) {
  const words = useWords();
  const format = useFormat();
  const size = useDrawnSize(small ? 104 : 160, small ? 116 : 206);
  const id = useId();
  const { family, serial, opening, holder } = engine;
  const labels = waitLabels(
    { ...engine, findings: floor.pastOrUndecided, today: floor.today },
    { format, words: words.engine },
  );
  return (
    <article className={small ? 'stand small' : 'stand'} aria-labelledby={id}>
      <div className="stand-drawing">
        <EngineSection family={family} opening={opening} size={size} decorative />
      </div>
      <div className="stand-words">
        <h4 id={id}>
          <Link to="/engines/$engineId" params={{ engineId: engine.id }} className="stand-link">
            <b>{family.name}</b> <span className="num nowrap">{serial}</span>
          </Link>
        </h4>
        <p>
          <DepthWords opening={opening} />
        </p>
        <p>
          {holder === null ? <b className="hot">{words.engine.nobodyHolds}</b> : holder.name}{' '}
          {holder === null ? null : <span className="note num">{words.engine.since(format.since(holder.since))}</span>}
        </p>
        <Waits
          none={words.engine.wait.none}
          waits={labels.map(({ id: key, kind, text, spanFrom }) => ({
            id: key,
            kind,
            text: (
              <>
                {text}
                {spanFrom === undefined ? null : (
                  <>
                    {' '}
                    <Span from={spanFrom} />
                  </>
                )}
              </>
            ),
          }))}
        />
      </div>
    </article>
  );
}
