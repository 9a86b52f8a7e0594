import { useWords } from '../../words/words.tsx';
import { nextRepeat } from './measuring.ts';
import type { Measuring } from './use-measuring.ts';

interface QuestionHeadProps {
  readonly measuring: Measuring;
  readonly onList: () => void;
}

/** Which reading this is, of how many, and where, in words. */
export function QuestionHead({ measuring, onList }: QuestionHeadProps) {
  const { measure } = useWords();
  const { dimension, standings, place, round } = measuring;
  const of = standings.length;
  const open = standings.filter(({ taken }) => taken.length === 0).length;
  const nth = Math.min(of, of - open + (place === undefined || place.taken.length > 0 ? 0 : 1));
  const repeat = place === undefined ? 1 : nextRepeat(place);
  const title =
    place === undefined
      ? measure.done.title(dimension.name)
      : of === 1
        ? dimension.name
        : place.position.level === null
          ? place.position.label
          : measure.at(place.position.label);
  return (
    <div className="question-head">
      <button type="button" className="btn choose-other" onClick={onList}>
        <span>
          {measure.reading(dimension.name, nth, of)}
          <span className="note">
            {' '}
            {measure.rounds[round]}
            {repeat > 1 ? `, ${measure.repeat(repeat)}` : ''}
          </span>
          <b className="narrow-title" aria-hidden="true">
            {title}
          </b>
        </span>
        <svg className="dwg" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
          <path className="w" d="M3 6L8 11L13 6" fill="none" />
        </svg>
        <span className="visually-hidden">{measure.list}</span>
      </button>
      <h2>{title}</h2>
    </div>
  );
}
