import { useState } from 'react';
import type { BenchDimension } from '#contracts/bench.ts';
import type { Finding, WorkedOutFinding } from '#contracts/findings.ts';
import { LimitStrip } from '../../drawings/limit-strip.tsx';
import { Verdict } from '../../drawings/verdict.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BudgetDialog } from './budget-dialog.tsx';
import { earlierTicks, stripLimits, stripReading } from './measuring.ts';
import { percent } from './percent.ts';
import { useCommands } from './use-keys.ts';

interface ReadingStripProps {
  readonly dimension: BenchDimension;
  readonly finding: WorkedOutFinding | undefined;
  readonly width: number;
}

/** The dimension's limits, the engine's earlier readings, and where this one falls. */
export function ReadingStrip({ dimension, finding, width }: ReadingStripProps) {
  const format = useFormat();
  const reading = finding === undefined ? null : stripReading(finding.value, finding.guardBand.value);
  return (
    <LimitStrip
      {...stripLimits(dimension)}
      verdict={finding?.verdict ?? 'not measured'}
      reading={reading}
      earlier={earlierTicks(dimension)}
      label={dimension.name}
      decimals={dimension.decimals}
      unit={dimension.unit}
      format={format.number}
      width={width}
    />
  );
}

/** How sure it is; where that comes from is one tap, or F9, away. */
export function BudgetKey({
  finding,
  keyed = false,
}: {
  readonly finding: WorkedOutFinding | Finding;
  readonly keyed?: boolean;
}) {
  const { measure } = useWords();
  const format = useFormat();
  const [shown, setShown] = useState(false);
  const { standardUncertainty: u } = finding;
  useCommands(keyed && finding.budget.length > 0 ? { budget: () => setShown(true) } : {});
  if (finding.budget.length === 0) return null;
  return (
    <>
      <button type="button" className="btn budget-key" onClick={() => setShown(true)}>
        <span className="num">
          u = {format.decimal(u.value)} {u.unit}
        </span>{' '}
        <span className="note">{measure.verdict.why}</span>
      </button>
      <BudgetDialog finding={finding} open={shown} onClose={() => setShown(false)} />
    </>
  );
}

interface VerdictPanelProps {
  readonly finding: WorkedOutFinding | Finding;
  /** Whether it is of this one reading or of all together. */
  readonly of: string;
}

/** The verdict in words, how sure it is, and what follows; where the uncertainty comes from is one tap away. */
export function VerdictPanel({ finding, of }: VerdictPanelProps) {
  const { measure } = useWords();
  const format = useFormat();
  const { probabilityPast: past } = finding;
  const unsure = finding.verdict === 'undecided' || finding.verdict === 'past the limit';
  return (
    <div className="verdict-panel" aria-live="polite">
      <p className="verdict-line">
        <Verdict verdict={finding.verdict} signWidth={60} note={of} />
      </p>
      <p>
        {format.decimal(finding.words)} {unsure ? measure.verdict.past(percent(past.low), percent(past.high)) : null}
      </p>
      {finding.verdict === 'undecided' ? <p>{measure.verdict.twice}</p> : null}
      {finding.warnings.map((warning) => (
        <p key={warning.code + warning.words} className="note">
          {warning.words}
        </p>
      ))}
      <BudgetKey finding={finding} keyed />
    </div>
  );
}
