import { useState } from 'react';
import type { Part, PartName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useSession } from '../../app/session.tsx';
import { isSaidAt, useWrite } from '../../app/write.ts';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { PartCompanions } from './part-companions.tsx';
import {
  addingOf,
  type Companion,
  changeOf,
  entryOf,
  type PartEntry,
  reorderIsWrong,
  sumIsWrong,
} from './part-entry.ts';
import { PartFormFields } from './part-form-fields.tsx';

interface FormProps {
  /** Null: a new one. */
  readonly part: Part | null;
  /** What goes with it so far. */
  readonly companions?: readonly Companion[];
  readonly onClose: () => void;
  readonly onDone?: (part: PartName) => void;
}

const pointers = [
  '/number',
  '/name',
  '/familyId',
  '/placeCode',
  '/sizeClass',
  '/grade',
  '/price',
  '/core',
  '/reorderPoint',
  '/companions',
];

/** Adds a part by hand, or changes what is said of one. */
export function PartFormDialog({ part, companions = [], onClose, onDone }: FormProps) {
  const { partForms: words } = useWords();
  const { currency } = useSession().shop;
  const writing = useWrite<PartName>();
  const [entry, setEntry] = useState<PartEntry>(() => entryOf(part));
  const wrong = sumIsWrong(entry.price, currency) || sumIsWrong(entry.core, currency) || reorderIsWrong(entry);
  const ready = entry.number.trim() !== '' && entry.name.trim() !== '' && !wrong && !writing.busy;
  const write = () => {
    if (!ready) return;
    const what =
      part === null
        ? { path: '/parts', body: addingOf(entry, currency) }
        : { path: `/parts/${part.id}/change`, body: changeOf(entry, currency) };
    writing.write(what, (kept) => {
      onDone?.(kept);
      onClose();
    });
  };
  return (
    <Dialog
      title={part === null ? words.add : words.changeTitle(part.name)}
      open
      onClose={onClose}
      acts={<DialogActs act={words.write} ready={ready} onAct={write} close={words.close} onClose={onClose} />}
    >
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          write();
        }}
      >
        <PartFormFields
          entry={entry}
          change={(changed) => setEntry({ ...entry, ...changed })}
          isNew={part === null}
          error={writing.error}
        />
        <button type="submit" hidden />
      </form>
      <div className="form">
        <PartCompanions
          of={part}
          companions={entry.companions ?? companions}
          onChange={(changed) => setEntry({ ...entry, companions: changed })}
          error={writing.error}
        />
        {isSaidAt(writing.error, pointers) ? null : <Refusal error={writing.error} />}
      </div>
    </Dialog>
  );
}
