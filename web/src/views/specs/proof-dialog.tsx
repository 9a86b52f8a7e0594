import { useState } from 'react';
import { useWords } from '../../words/words.tsx';
import { EntryDialog } from './entry-dialog.tsx';
import { LinesField, SelectField, TextField } from './form-fields.tsx';
import { without } from './list-order.ts';
import type { PrintedProof } from './printed.ts';
import type { Draft } from './use-draft.ts';

const newProof: PrintedProof = { code: '', name: '', dimension: null, words: '', caution: '' };

interface Props {
  readonly draft: Draft;
  /** Its place in the list; that after the last: a new one. */
  readonly at: number;
  readonly onClose: () => void;
}

/** One proof of the draft: what is done before the engine goes back, and what it is judged by. */
export function ProofDialog({ draft, at, onClose }: Props) {
  const { specForms: all } = useWords();
  const words = all.proofs;
  const { document } = draft;
  const before = document.proofs[at];
  const [entry, setEntry] = useState(before ?? newProof);
  const change = (next: Partial<PrintedProof>) => setEntry({ ...entry, ...next });
  const kept = { ...entry, code: entry.code.trim(), name: entry.name.trim() };
  return (
    <EntryDialog
      draft={draft}
      title={before === undefined ? words.addTitle : words.editTitle(before.name)}
      base={`/proofs/${at}`}
      kept={() => ({ ...document, proofs: [...document.proofs.slice(0, at), kept, ...document.proofs.slice(at + 1)] })}
      removal={
        before === undefined
          ? undefined
          : { words: words.remove, document: { ...document, proofs: without(document.proofs, at) } }
      }
      onClose={onClose}
    >
      <div className="pair">
        <TextField label={all.code} at="/code" required value={entry.code} onChange={(code) => change({ code })} />
        <TextField label={all.name} at="/name" required value={entry.name} onChange={(name) => change({ name })} />
      </div>
      <SelectField
        label={words.dimension}
        at="/dimension"
        none={words.noDimension}
        value={entry.dimension ?? ''}
        options={document.dimensions.map(({ code, name }) => [code, name] as const)}
        onChange={(dimension) => change({ dimension })}
      />
      <LinesField label={words.words} at="/words" value={entry.words} onChange={(how) => change({ words: how })} />
      <LinesField
        label={words.caution}
        at="/caution"
        hint={words.cautionHint}
        value={entry.caution}
        onChange={(caution) => change({ caution })}
      />
    </EntryDialog>
  );
}
