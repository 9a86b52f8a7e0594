import type { ToBuy } from '#contracts/supply.ts';
import { useMedia } from '../../app/use-media.ts';
import { useWords } from '../../words/words.tsx';
import { BuyingPrice, BuyingReason } from './buying-words.tsx';
import { usePackText } from './pack-count.tsx';
import { Scrolled } from './scrolled.tsx';

export const keyOf = ({ part, job, why }: ToBuy): string => `${part.id} ${job?.id ?? ''} ${why}`;

interface LinesProps {
  /** Whom they are bought from. */
  readonly of: string;
  readonly lines: readonly ToBuy[];
  readonly left: ReadonlySet<string>;
  readonly onToggle: ((key: string) => void) | undefined;
}

/** What one vendor is asked for: a table, on a phone a list in which each line is ticked by a tap anywhere on it. */
export function BuyingLines({ of, ...lines }: LinesProps) {
  const phone = useMedia('(max-width: 759px)');
  if (phone) return <BuyingList {...lines} />;
  return (
    <Scrolled label={of}>
      <BuyingTable {...lines} />
    </Scrolled>
  );
}

type Lines = Omit<LinesProps, 'of'>;

function BuyingTable({ lines, left, onToggle }: Lines) {
  const { buying: words } = useWords().stores;
  const packText = usePackText();
  return (
    <table>
      <thead>
        <tr>
          {onToggle === undefined ? null : <th>{words.take}</th>}
          <th>{words.part}</th>
          <th className="n">{words.quantity}</th>
          <th>{words.why}</th>
          <th className="n">{words.price}</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={keyOf(line)}>
            {onToggle === undefined ? null : (
              <td>
                <label className="tick">
                  <input
                    type="checkbox"
                    aria-label={words.takeOf(line.part.name)}
                    checked={!left.has(keyOf(line))}
                    onChange={() => onToggle(keyOf(line))}
                  />
                </label>
              </td>
            )}
            <td>
              <b>{line.part.name}</b> <span className="note num">{line.part.number}</span>
            </td>
            <td className="n nowrap">{packText(line.quantity, line.packSize, line.unit)}</td>
            <td>
              <BuyingReason line={line} />
            </td>
            <td className="n">
              <BuyingPrice line={line} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function BuyingList({ lines, left, onToggle }: Lines) {
  return (
    <ul className="buying-list">
      {lines.map((line) => (
        <li key={keyOf(line)}>
          {onToggle === undefined ? (
            <div className="buying-line">
              <BuyingWords line={line} />
            </div>
          ) : (
            <label className="buying-line ticked">
              <input type="checkbox" checked={!left.has(keyOf(line))} onChange={() => onToggle(keyOf(line))} />
              <BuyingWords line={line} />
            </label>
          )}
        </li>
      ))}
    </ul>
  );
}

function BuyingWords({ line }: { readonly line: ToBuy }) {
  const packText = usePackText();
  return (
    <>
      <span>
        <b>{line.part.name}</b> <span className="note num">{line.part.number}</span>
      </span>
      <span className="buying-count num">
        <b>{packText(line.quantity, line.packSize, line.unit)}</b>
        {line.price === null ? '' : ' · '}
        <BuyingPrice line={line} />
      </span>
      <span className="note">
        <BuyingReason line={line} />
      </span>
    </>
  );
}
