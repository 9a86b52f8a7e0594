import { useState } from 'react';
import { torqueNotes } from '#domain/spec-sheet/torque-notes.ts';
import { useWords } from '../../words/words.tsx';
import { EntryDialog } from './entry-dialog.tsx';
import { type FastenersProps, newFasteners, tidiedFasteners } from './fastener-entry.ts';
import { FastenerPositions } from './fastener-positions.tsx';
import { SelectField, TextField } from './form-fields.tsx';
import { without } from './list-order.ts';
import type { PrintedFasteners } from './printed.ts';
import { StageFields } from './stage-fields.tsx';
import { TorqueNotes } from './torque-notes.tsx';
import type { Draft } from './use-draft.ts';

const conditions = ['dry', 'oiled', 'locking compound'] as const;
const reuses = ['reuse', 'inspect', 'one-time'] as const;

function FastenerFacts({ entry, change }: FastenersProps) {
  const { specForms: all } = useWords();
  const words = all.fasteners;
  const { thread, propertyClass, tool } = words;
  const labels = { code: all.code, name: all.name, source: all.source, page: all.page, thread, propertyClass, tool };
  const text = (field: keyof typeof labels, hint?: string) => (
    <TextField
      label={labels[field]}
      at={`/${field}`}
      required={field === 'code' || field === 'name'}
      value={entry[field]}
      onChange={(value) => change({ [field]: value })}
      {...(hint === undefined ? {} : { hint })}
    />
  );
  return (
    <>
      <div className="pair">
        {text('code', words.codeHint)}
        {text('name')}
        {text('thread', words.threadHint)}
        {text('propertyClass', words.propertyClassHint)}
        <SelectField
          label={words.condition}
          at="/condition"
          value={entry.condition}
          options={conditions.map((one) => [one, words.conditions[one]] as const)}
          onChange={(condition) => condition !== null && change({ condition })}
        />
        <SelectField
          label={words.reuse}
          at="/reuse"
          value={entry.reuse}
          options={reuses.map((one) => [one, words.reuses[one]] as const)}
          onChange={(reuse) => reuse !== null && change({ reuse })}
        />
        {text('tool')}
        {text('source')}
        {text('page')}
      </div>
      <label className="check">
        <input
          type="checkbox"
          checked={entry.orderIsMakers}
          onChange={({ target }) => change({ orderIsMakers: target.checked })}
        />
        {words.makers}
      </label>
    </>
  );
}

interface Props {
  readonly draft: Draft;
  /** Its place in the list; that after the last: a new one. */
  readonly at: number;
  readonly onClose: () => void;
}

/** One set of fasteners of the draft: what they are, the stages, and where they are in tightening order. */
export function FastenersDialog({ draft, at, onClose }: Props) {
  const { specForms: all } = useWords();
  const words = all.fasteners;
  const { document } = draft;
  const before = document.fasteners[at];
  const [entry, setEntry] = useState<PrintedFasteners>(before ?? newFasteners);
  const fields: FastenersProps = { entry, change: (next) => setEntry({ ...entry, ...next }) };
  const put = () => [...document.fasteners.slice(0, at), tidiedFasteners(entry), ...document.fasteners.slice(at + 1)];
  return (
    <EntryDialog
      draft={draft}
      title={before === undefined ? words.addTitle : words.editTitle(before.name)}
      base={`/fasteners/${at}`}
      kept={() => ({ ...document, fasteners: put() })}
      removal={
        before === undefined
          ? undefined
          : { words: words.remove, document: { ...document, fasteners: without(document.fasteners, at) } }
      }
      onClose={onClose}
    >
      <FastenerFacts {...fields} />
      <StageFields {...fields} />
      <TorqueNotes notes={torqueNotes({ fasteners: [entry] })} />
      <FastenerPositions {...fields} />
    </EntryDialog>
  );
}
