import { useState } from 'react';
import type { PartsChanged } from '#contracts/part-changes.ts';
import { useWords } from '../../words/words.tsx';
import { ChangeSeveralDialog } from './change-several-dialog.tsx';
import {
  type ChangeEntry,
  changeOf,
  isLevelWrong,
  isNothing,
  nothingTyped,
  PartChangeFields,
} from './part-change-fields.tsx';

interface DialogProps {
  readonly partIds: readonly string[];
  readonly onClose: () => void;
}

/** Changes facts of several parts in one act. */
export function PartChangeDialog({ partIds, onClose }: DialogProps) {
  const { partChanges: words } = useWords();
  const [entry, setEntry] = useState<ChangeEntry>(nothingTyped);
  return (
    <ChangeSeveralDialog<PartsChanged['items'][number]>
      words={{ ...words, title: words.title(partIds.length), one: words.part }}
      path="/parts/changes"
      body={changeOf(entry, partIds)}
      keyed={!isNothing(entry) && !isLevelWrong(entry)}
      onClose={onClose}
      itemOf={({ part: { id, name, number } }) => ({
        id,
        name: (
          <>
            <b>{name}</b> <span className="note num">{number}</span>
          </>
        ),
      })}
      factIn={(fact) => words[fact]}
      fields={(changed) => (
        <PartChangeFields
          entry={entry}
          change={(keyed) => {
            changed();
            setEntry({ ...entry, ...keyed });
          }}
        />
      )}
    />
  );
}
