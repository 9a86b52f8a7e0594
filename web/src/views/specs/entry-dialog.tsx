import { type ReactNode, useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { FaultList } from './fault-list.tsx';
import { FaultScope } from './fault-scope.tsx';
import { type Draft, useKeeping } from './use-draft.ts';
import './spec-forms.css';

interface Props {
  readonly draft: Draft;
  readonly title: string;
  /** Pointer of what is changed; fields name their places from there. */
  readonly base: string;
  /** Pointers that have fields, when they are not the whole of the base. */
  readonly fields?: readonly string[];
  /** The sheet as the form would have it. */
  readonly kept: () => SpecSheetDocument;
  /** The sheet without what is changed; undefined: it isn't there yet. */
  readonly removal?: { readonly words: string; readonly document: SpecSheetDocument } | undefined;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A form for one entry of the draft; what was wrong is told at its field, or by its place where it has none. */
export function EntryDialog(props: Props) {
  const { draft, title, base, fields = [base], kept, removal, onClose, children } = props;
  const { specForms: words, specs } = useWords();
  const keeping = useKeeping(draft);
  const [removing, setRemoving] = useState(false);
  const send = (document: SpecSheetDocument, removes: boolean) => {
    setRemoving(removes);
    keeping.keep(document, onClose);
  };
  // Without the entry the others have other places, so none of the faults is a field's.
  const shown = removing ? null : keeping.error;
  return (
    <Dialog title={title} open onClose={onClose}>
      <form
        className="form entry-form"
        onSubmit={(event) => {
          event.preventDefault();
          send(kept(), false);
        }}
      >
        <FaultScope error={shown} base={base}>
          {children}
        </FaultScope>
        <FaultList error={keeping.error} title={words.wrong} told={removing ? [] : fields} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={keeping.busy}>
            {words.keep}
          </Button>
          {removal === undefined ? null : (
            <Button disabled={keeping.busy} onClick={() => send(removal.document, true)}>
              {removal.words}
            </Button>
          )}
          <Button onClick={onClose}>{specs.close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
