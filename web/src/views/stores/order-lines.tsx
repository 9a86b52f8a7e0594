import type { Order } from '#contracts/supply.ts';
import type { Money } from '#contracts/wire.ts';
import { inPacks, packWorth } from '#domain/stock/packs.ts';
import { useMay } from '../../app/session.tsx';
import { useToday } from '../../app/today.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { useKeyedText } from './pack-count.tsx';
import './order-lines.css';

type Line = Order['lines'][number];
export type Doing = { readonly what: 'receive' | 'date' | 'fault'; readonly line: Line };

/** Its day is over in the shop and it is not all in. */
const isLate = ({ promisedOn, received, quantity }: Line, today: string): boolean =>
  promisedOn !== null && received < quantity && promisedOn < today;

const sumOf = ({ price, packSize, quantity }: Line): Money | null =>
  price === null
    ? null
    : { ...price, minor: String(packWorth({ priceMinor: BigInt(price.minor), packSize }, quantity)) };

interface LinesProps {
  readonly order: Order;
  readonly onDo: (doing: Doing) => void;
}

/** The lines of an order, as its vendor reads them, and, on the screen alone, what became of each. */
export function OrderLines({ order, onDo }: LinesProps) {
  const { buying: words } = useWords().stores;
  const format = useFormat();
  const numbered = order.lines.some(({ theirNumber }) => theirNumber !== '');
  return (
    <table className="order-lines">
      <thead>
        <tr>
          <th className="n">{words.line}</th>
          {numbered ? <th>{words.theirNumber}</th> : null}
          <th>{words.part}</th>
          <th>{words.quantity}</th>
          <th className="n">{words.price}</th>
          <th className="n">{words.sum}</th>
          <th>{words.due}</th>
          <th className="no-print">{words.became}</th>
        </tr>
      </thead>
      <tbody>
        {order.lines.map((line, at) => (
          <LineRow key={line.id} line={line} number={at + 1} numbered={numbered} onDo={onDo} />
        ))}
      </tbody>
      {order.total === null ? null : (
        <tfoot>
          <tr>
            <td colSpan={numbered ? 5 : 4}>{words.total}</td>
            <td className="n">
              <b>{format.money(order.total)}</b>
            </td>
            <td />
            <td className="no-print" />
          </tr>
        </tfoot>
      )}
    </table>
  );
}

interface RowProps {
  readonly line: Line;
  readonly number: number;
  /** The vendor's own numbers have a column. */
  readonly numbered: boolean;
  readonly onDo: LinesProps['onDo'];
}

function LineRow({ line, number, numbered, onDo }: RowProps) {
  const { buying: words } = useWords().stores;
  const { packs: packWords } = useWords();
  const format = useFormat();
  const sum = sumOf(line);
  return (
    <tr>
      <td className="n line-number">{number}</td>
      {numbered ? (
        <td className="num their-number" data-label={words.theirNumber}>
          {line.theirNumber === '' ? null : <b>{line.theirNumber}</b>}
        </td>
      ) : null}
      <td className="line-part">
        <b>{line.part.name}</b> <span className="note num nowrap">{line.part.number}</span>
        {line.words === '' ? null : <p>{line.words}</p>}
        {line.job === null ? null : (
          <p className="note no-print">{words.short(line.job.number, line.job.family, line.job.serial)}</p>
        )}
      </td>
      <td data-label={words.quantity}>
        <Ordered line={line} />
      </td>
      <td className="n" data-label={words.price}>
        {line.price === null ? '–' : format.money(line.price)}
        {line.price === null || line.packSize === 1 ? null : (
          <span className="note nowrap"> {packWords.of(format.number(line.packSize))}</span>
        )}
      </td>
      <td className="n" data-label={words.sum}>
        {sum === null ? '–' : format.money(sum)}
      </td>
      <td className="num line-days" data-label={words.due}>
        <LineDays line={line} />
      </td>
      <td className="no-print line-became">
        <Became line={line} onDo={onDo} />
      </td>
    </tr>
  );
}

/** By when it is wanted, and the day its vendor gave. */
function LineDays({ line }: { readonly line: Line }) {
  const { buying: words, noDate } = useWords().stores;
  const { late } = useWords().storesDesks.orderLine;
  const format = useFormat();
  const today = useToday();
  return (
    <>
      {line.wantedOn === null ? null : <span className="line-day">{words.wanted(format.dayDated(line.wantedOn))}</span>}
      {line.promisedOn === null ? (
        <span className="line-day no-print">{noDate}</span>
      ) : (
        <span className="line-day">{words.promisedFor(format.dayDated(line.promisedOn))}</span>
      )}
      {isLate(line, today) ? <b className="hot no-print">{late}</b> : null}
    </>
  );
}

/** How many, as a vendor picks them: so many packs of so many, and how many ones that is. */
function Ordered({ line: { quantity, packSize, unit } }: { readonly line: Line }) {
  const { packs: words } = useWords();
  const { number } = useFormat();
  const ones = words.ones[unit](number(quantity));
  if (packSize === 1) return <b className="num nowrap">{ones}</b>;
  const { packs, loose } = inPacks(quantity, packSize);
  const whole = words.counted(packs, number(packSize));
  const open = words.opened(number(loose), number(packSize));
  return (
    <>
      <b className="num">{loose === 0 ? whole : packs === 0 ? open : words.and(whole, open)}</b>{' '}
      <span className="note num nowrap">= {ones}</span>
    </>
  );
}

/** What became of a line so far, and what can be done with it. */
function Became({ line, onDo }: { readonly line: Line; readonly onDo: LinesProps['onDo'] }) {
  const { buying: words } = useWords().stores;
  const format = useFormat();
  const may = useMay('stores');
  const keyedText = useKeyedText();
  return (
    <>
      <p>{words.cameIn(line.received, line.quantity)}</p>
      {line.replacedWhy === '' ? null : <p className="note">{words.oldOne(line.replacedWhy)}</p>}
      <ul className="plain note">
        {line.facts.map((fact) => (
          <li key={`${fact.at} ${fact.kind}`}>
            {words.fact(fact.kind, fact.quantity, fact.promisedOn === null ? null : format.day(fact.promisedOn))}
            {keyedText(fact.keyed, line.packSize) === '' ? '' : ` (${keyedText(fact.keyed, line.packSize)})`}
            {fact.words === '' ? '' : `: ${fact.words}`}, {fact.by}, {format.date(fact.at)}
          </li>
        ))}
      </ul>
      {may ? <LineActs line={line} onDo={onDo} /> : null}
    </>
  );
}

function LineActs({ line, onDo }: { readonly line: Line; readonly onDo: LinesProps['onDo'] }) {
  const { buying: words, receive, receiveOf } = useWords().stores;
  const { orderLine } = useWords().storesDesks;
  const open = line.received < line.quantity;
  return (
    <div className="kit-acts">
      {open ? (
        <>
          <Button aria-label={receiveOf(line.part.name)} onClick={() => onDo({ what: 'receive', line })}>
            {receive}
          </Button>
          <Button aria-label={words.dateOf(line.part.name)} onClick={() => onDo({ what: 'date', line })}>
            {words.date}
          </Button>
        </>
      ) : null}
      {open || line.received > 0 ? (
        <Button aria-label={orderLine.moreOf(line.part.name)} onClick={() => onDo({ what: 'fault', line })}>
          {orderLine.more}
        </Button>
      ) : null}
    </div>
  );
}
