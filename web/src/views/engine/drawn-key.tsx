import { useState } from 'react';
import type { FindingFacts } from '#contracts/engines.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { DrawnFinding, limitsDrawn } from '../bench/drawn-finding.tsx';

/** How sure a finding is, drawn by chance: one tap away. */
export function DrawnKey({ finding, name }: { readonly finding: FindingFacts; readonly name: string }) {
  const { drawnFinding: words, measure } = useWords();
  const [open, setOpen] = useState(false);
  return (
    <span className="drawn-key more no-print">
      <Button onClick={() => setOpen(true)} aria-label={words.openFor(name)}>
        {words.open}
      </Button>
      {open ? (
        <Dialog
          title={words.openFor(name)}
          open
          onClose={() => setOpen(false)}
          acts={<Button onClick={() => setOpen(false)}>{measure.budget.close}</Button>}
        >
          <DrawnFinding
            findingId={finding.id}
            name={name}
            limits={limitsDrawn(finding.limits)}
            span={finding.value.type === 'span'}
          />
        </Dialog>
      ) : null}
    </span>
  );
}
