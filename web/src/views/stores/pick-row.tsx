import { useEffect, useRef } from 'react';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type Stop, stopId } from './pick-stop.ts';

interface RowProps {
  readonly stop: Stop;
  /** The first of its bin: the bin is said. */
  readonly newBin: boolean;
  readonly current: boolean;
  readonly picked: boolean;
  /** The bin's own label was scanned. */
  readonly standing: boolean;
  readonly onTake: () => void;
  readonly onBack: () => void;
  readonly onFewer: () => void;
}

/** One thing to take out of one bin: where, what, how many, for whom. */
export function PickRow({ stop, newBin, current, picked, standing, onTake, onBack, onFewer }: RowProps) {
  const { walk: words } = useWords().storesDesks;
  const format = useFormat();
  const may = useMay('stores');
  const row = useRef<HTMLLIElement>(null);
  const before = useRef(current);
  useEffect(() => {
    // Not when the walk opens: it begins at its head.
    if (current && !before.current) row.current?.scrollIntoView({ block: 'nearest' });
    before.current = current;
  }, [current]);
  const { part, job, lot, serial, grade, quantity, unit, dueOn, complete, bin } = stop;
  const told = [
    ...(serial === null ? (lot === '' ? [] : [words.lot(lot)]) : [words.serial(serial)]),
    ...(grade === '' ? [] : [words.grade(grade)]),
    ...(dueOn === null ? [] : [words.due(format.day(dueOn))]),
    ...(complete ? [] : [words.lacks]),
  ];
  const classes = [
    'stop',
    ...(current ? ['current'] : []),
    ...(picked ? ['picked'] : []),
    ...(newBin ? ['first'] : []),
  ];
  return (
    <li ref={row} className={classes.join(' ')} id={`stop-${stopId(stop)}`} aria-current={current ? 'step' : undefined}>
      <div className="stop-bin">
        <b className="num">{bin.name}</b>
        {standing ? <span className="note">{words.atBin}</span> : null}
      </div>
      <div className="stop-count">
        <b className="num">{quantity}</b>{' '}
        <span className="note">{words.unit(quantity, unit).replace(`${quantity} `, '')}</span>
      </div>
      <div className="stop-what">
        <b>{part.name}</b> <span className="num note">{part.number}</span>
        <p>{words.job(job.number, job.family, job.serial)}</p>
        {told.length === 0 ? null : <p className="note">{told.join(', ')}</p>}
      </div>
      {may ? (
        <div className="stop-acts">
          {picked ? (
            <>
              <span className="stop-picked">{words.picked}</span>
              <Button aria-label={words.backOf(part.name)} onClick={onBack}>
                {words.back}
              </Button>
            </>
          ) : (
            <>
              <Button kind="main" aria-label={words.tookOf(quantity, part.name)} onClick={onTake}>
                {words.took(quantity)}
              </Button>
              <Button aria-label={words.fewerOf(part.name, bin.name)} onClick={onFewer}>
                {words.fewer}
              </Button>
            </>
          )}
        </div>
      ) : null}
    </li>
  );
}
