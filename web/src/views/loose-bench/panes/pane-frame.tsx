import { type ReactNode, useState } from 'react';
import { Refusal } from '../../../app/refusal.tsx';
import { useMay } from '../../../app/session.tsx';
import { Button } from '../../../kit/button.tsx';
import { useWords } from '../../../words/words.tsx';
import { KeepDialog } from '../keep-dialog.tsx';
import type { PaneKind } from './kinds.ts';
import type { Faults } from './use-loose.ts';

interface PaneFrameProps {
  readonly kind: PaneKind;
  /** What was asked, as it is kept with a job; undefined: something is still missing or wrong. */
  readonly given: object | undefined;
  readonly missing: readonly string[];
  readonly faults: Faults;
  readonly error: Error | null;
  readonly clear: () => void;
  readonly fields: ReactNode;
  readonly found: ReactNode;
  readonly cautions: readonly string[];
}

/** Heading and acts, what is keyed on the left, what comes out on the right. */
export function PaneFrame(props: PaneFrameProps) {
  const { kind, given, missing, faults, error, clear, fields, found, cautions } = props;
  const { looseBench: words, loosePanes: panes } = useWords();
  const mayKeep = useMay('bench');
  const [keeping, setKeeping] = useState(false);
  return (
    <section className="loose-work" aria-labelledby="reckoned">
      <header>
        <h2 id="reckoned">{panes.kinds[kind]}</h2>
        <div className="loose-acts no-print">
          {mayKeep ? (
            <Button kind="main" disabled={given === undefined} onClick={() => setKeeping(true)}>
              {words.keep.open}
            </Button>
          ) : null}
          <Button onClick={clear}>{words.clear}</Button>
          <Button onClick={() => window.print()}>{words.print}</Button>
        </div>
      </header>
      <div className="loose-pair">
        <div className="loose-given">{fields}</div>
        <div className="loose-found" aria-live="polite">
          <h3>{words.found}</h3>
          {missing.length > 0 ? (
            <p className="loose-needs">{words.stillNeeded(missing.join(', '))}</p>
          ) : faults.all.length > 0 ? (
            <p className="hot">{words.mend}</p>
          ) : null}
          <Refusal error={error} />
          {found}
          <div className="loose-cautions">
            <h3>{words.careful}</h3>
            <ul>
              {cautions.map((caution) => (
                <li key={caution}>{caution}</li>
              ))}
            </ul>
          </div>
        </div>
      </div>
      <p className="note no-print">{words.link}</p>
      {keeping && given !== undefined ? (
        <KeepDialog kind={kind} given={given} onClose={() => setKeeping(false)} />
      ) : null}
    </section>
  );
}
