import type { ReactNode } from 'react';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

interface ListEditorProps<Item> {
  readonly title: string;
  readonly hint?: string;
  readonly items: readonly Item[];
  /** What a new one begins with. */
  readonly fresh: Item;
  readonly onChange: (items: readonly Item[]) => void;
  readonly row: (item: Item, change: (next: Item) => void) => ReactNode;
}

/** Entries of a step, each with its fields; added at the foot, removed one by one. */
export function ListEditor<Item>({ title, hint, items, fresh, onChange, row }: ListEditorProps<Item>) {
  const { procedures: words } = useWords();
  return (
    <fieldset className="list-editor">
      <legend>{title}</legend>
      {hint === undefined ? null : <p className="note">{hint}</p>}
      {items.map((item, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: an entry has no name of its own while it is written
        <div key={index} className="list-entry">
          <div className="list-fields">{row(item, (next) => onChange(items.with(index, next)))}</div>
          <Button
            aria-label={words.edit.removeEntry(title, index + 1)}
            onClick={() => onChange(items.filter((_, place) => place !== index))}
          >
            {words.edit.remove}
          </Button>
        </div>
      ))}
      <div>
        <Button aria-label={words.edit.addEntry(title)} onClick={() => onChange([...items, fresh])}>
          {words.edit.add}
        </Button>
      </div>
    </fieldset>
  );
}
