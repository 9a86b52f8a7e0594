import type { ReactNode } from 'react';
import { send } from '../../app/api.ts';
import { CheckedActs, useCheckedWrite } from '../../app/checked-write.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { Scrolled } from './scrolled.tsx';

interface Changed<Item> {
  readonly items: readonly Item[];
  readonly unchanged: number;
}

interface ChangedItem {
  readonly changes: readonly { readonly fact: string; readonly from: string; readonly to: string }[];
}

/** How a thing stands in the table of what would change. */
interface Told {
  readonly id: string;
  readonly name: ReactNode;
}

interface ChangeSeveralProps<Item extends ChangedItem, Reply extends Changed<Item>> {
  readonly words: {
    readonly title: string;
    readonly stays: string;
    readonly would: (count: number, unchanged: number) => string;
    readonly done: (count: number) => string;
    /** What one of them is called, over its column. */
    readonly one: string;
  };
  /** Where the change goes; its check goes to the same path and `/check`. */
  readonly path: string;
  readonly body: unknown;
  /** True when something is keyed, and nothing of it is wrong. */
  readonly keyed: boolean;
  readonly onClose: () => void;
  readonly itemOf: (item: Item) => Told;
  readonly factIn: (fact: Item['changes'][number]['fact']) => string;
  /** How a value that is there is told, where it is not told as it comes. */
  readonly valueIn?: (value: string) => string;
  /** What else would come of it. */
  readonly also?: (would: Reply) => ReactNode;
  /** The fields; what is changed in them makes what was checked void, which `changed` says. */
  readonly fields: (changed: () => void) => ReactNode;
}

/** Changes several things in one act: what would change of each is shown first, then it is written. */
export function ChangeSeveralDialog<Item extends ChangedItem, Reply extends Changed<Item> = Changed<Item>>(
  props: ChangeSeveralProps<Item, Reply>,
) {
  const { words, path, body, keyed, onClose, fields, also } = props;
  const { partChanges } = useWords();
  const writing = useCheckedWrite<Reply>((step, key) =>
    send(`${path}${step === 'check' ? '/check' : ''}`, body, { key }),
  );
  const { checked: would, taken: done } = writing;
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <CheckedActs
          writing={writing}
          ready={keyed && would?.items.length !== 0}
          words={{ ...partChanges, take: ({ items }) => partChanges.write(items.length) }}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.stays}</p>
        {done === undefined ? fields(writing.reset) : null}
        <p role="status">
          {done !== undefined ? <b>{words.done(done.items.length)}</b> : null}
          {done === undefined && would !== undefined ? words.would(would.items.length, would.unchanged) : null}
        </p>
        {would === undefined || would.items.length === 0 ? null : <Changes {...props} items={would.items} />}
        {would === undefined ? null : also?.(would)}
        <Refusal error={writing.error} />
      </div>
    </Dialog>
  );
}

type ChangesProps<Item extends ChangedItem> = Pick<
  ChangeSeveralProps<Item, Changed<Item>>,
  'words' | 'itemOf' | 'factIn' | 'valueIn'
> &
  Pick<Changed<Item>, 'items'>;

function Changes<Item extends ChangedItem>({ words: { one }, itemOf, factIn, valueIn, items }: ChangesProps<Item>) {
  const { partChanges: words } = useWords();
  const said = (text: string) => ({ yes: words.yes, no: words.no, '': words.nothing })[text] ?? valueIn?.(text) ?? text;
  return (
    <Scrolled label={words.check}>
      <table>
        <thead>
          <tr>
            <th>{one}</th>
            <th>{words.fact}</th>
            <th>{words.from}</th>
            <th>{words.to}</th>
          </tr>
        </thead>
        <tbody>
          {items.flatMap((item) => {
            const { id, name } = itemOf(item);
            return item.changes.map(({ fact, from, to }) => (
              <tr key={`${id} ${fact}`}>
                <td>{name}</td>
                <td>{factIn(fact)}</td>
                <td className="num">{said(from)}</td>
                <td className="num">
                  <b>{said(to)}</b>
                </td>
              </tr>
            ));
          })}
        </tbody>
      </table>
    </Scrolled>
  );
}
