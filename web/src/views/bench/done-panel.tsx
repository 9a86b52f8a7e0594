import { Link } from '@tanstack/react-router';
import { useDownSince } from '../../app/outbox-sending.ts';
import { VerdictSign } from '../../drawings/verdict-sign.tsx';
import { buttonClass } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { CrossChecks } from './checks-said.tsx';
import { derivedOf, findingIn } from './measuring.ts';
import type { Measuring } from './use-measuring.ts';
import { BudgetKey, ReadingStrip, VerdictPanel } from './verdict-panel.tsx';

/** A dimension whose places are all read: what it amounts to, what follows from it, and on to the next. */
export function DonePanel({ measuring, width }: { readonly measuring: Measuring; readonly width: number }) {
  const { measure } = useWords();
  const format = useFormat();
  const { bench, dimension, round, standings, next } = measuring;
  const finding = findingIn(dimension, round);
  const leftOut = standings.filter(({ taken }) => taken.length === 0).map(({ position }) => position.label);
  const downSince = useDownSince();
  const waiting = downSince !== null && standings.some(({ taken }) => taken.some(({ state }) => state === 'waiting'));
  const mending = standings.some(({ taken }) => taken.some(({ state }) => state === 'refused'));
  const derived = derivedOf(bench, dimension).flatMap((one) => {
    const found = findingIn(one, round);
    return found === undefined ? [] : [{ dimension: one, finding: found }];
  });
  const obliged = [dimension, ...derived.map((one) => one.dimension)].flatMap((one) => one.openObligationIds).length;
  return (
    <div className="done-panel">
      {leftOut.length > 0 ? <p className="hot">{measure.done.leftOut(leftOut.join(', '))}</p> : null}
      {finding === undefined ? (
        leftOut.length > 0 || mending ? null : (
          <p className="note">{waiting ? measure.verdict.later : measure.done.notWorkedOut}</p>
        )
      ) : (
        <>
          {finding.value.type === 'felt' ? null : (
            <ReadingStrip dimension={dimension} finding={finding} width={width} />
          )}
          <VerdictPanel finding={finding} of={measure.verdict.whole} />
        </>
      )}
      <CrossChecks
        checks={bench.crossChecks.filter(({ agrees, about }) => !agrees && about.includes(dimension.code))}
      />
      {derived.map((one) => (
        <div key={one.dimension.code} className="derived">
          <VerdictSign verdict={one.finding.verdict} /> <span>{format.decimal(one.finding.words)}</span>
          <BudgetKey finding={one.finding} />
        </div>
      ))}
      {obliged > 0 ? <p className="hot">{measure.done.obliged(obliged)}</p> : null}
      {next === undefined ? (
        <div className="all-done">
          <p>
            <b>{measure.done.all}</b>
          </p>
          <Link className={buttonClass('main', true)} to="/bench">
            {measure.done.toBench}
          </Link>
        </div>
      ) : null}
    </div>
  );
}
