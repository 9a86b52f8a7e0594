import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { type EntryProps, isRead, newDimension, tidied } from './dimension-entry.ts';
import { DimensionFacts } from './dimension-facts.tsx';
import { FaultList } from './fault-list.tsx';
import { FaultScope } from './fault-scope.tsx';
import { LimitFields } from './limit-fields.tsx';
import { MethodFields } from './method-fields.tsx';
import { PositionFields } from './position-fields.tsx';
import type { PrintedDimension } from './printed.ts';
import { type Draft, useKeeping } from './use-draft.ts';

interface Props {
  readonly draft: Draft;
  /** Of the dimension that is changed; empty: a new one. */
  readonly code: string;
  readonly onClose: () => void;
}

/** One dimension of the draft, to be changed or added: facts, method, limits by size class, positions. */
export function DimensionDialog({ draft, code, onClose }: Props) {
  const { form: words, close } = useWords().specs;
  const { document } = draft;
  const before = document.dimensions.find((dimension) => dimension.code === code);
  const [entry, setEntry] = useState<PrintedDimension>(before ?? newDimension);
  const keeping = useKeeping(draft);
  const base = `/dimensions/${before === undefined ? document.dimensions.length : document.dimensions.indexOf(before)}`;
  const keep = (dimensions: SpecSheetDocument['dimensions']) => keeping.keep({ ...document, dimensions }, onClose);
  const kept = () => {
    const next = tidied(entry);
    keep(
      before === undefined
        ? [...document.dimensions, next]
        : document.dimensions.map((dimension) => (dimension === before ? next : dimension)),
    );
  };
  const fields: EntryProps = { entry, document, change: (change) => setEntry({ ...entry, ...change }) };
  return (
    <Dialog title={before === undefined ? words.addTitle : words.editTitle(before.name)} open onClose={onClose}>
      <form
        className="form dimension-form"
        onSubmit={(event) => {
          event.preventDefault();
          kept();
        }}
      >
        <LimitFields {...fields} />
        <DimensionFacts {...fields} />
        <MethodFields {...fields} />
        {isRead(entry) ? (
          <FaultScope error={keeping.error} base={base}>
            <PositionFields {...fields} />
          </FaultScope>
        ) : null}
        <FaultList error={keeping.error} title={words.wrong} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={keeping.busy}>
            {words.keep}
          </Button>
          {before === undefined ? null : (
            <Button
              disabled={keeping.busy}
              onClick={() => keep(document.dimensions.filter((dimension) => dimension !== before))}
            >
              {words.remove}
            </Button>
          )}
          <Button onClick={onClose}>{close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
