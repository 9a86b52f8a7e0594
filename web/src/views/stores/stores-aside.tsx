import { Link } from '@tanstack/react-router';
import type { PurchaseLine } from '#contracts/stock.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { FirstOf } from './first-of.tsx';

interface AsideProps {
  readonly board: StoresBoard;
  readonly onReceive: (line: PurchaseLine) => void;
  readonly onPart: (partId: string) => void;
}

/** What is short, what runs low, what comes in. */
export function StoresAside({ board, onReceive, onPart }: AsideProps) {
  const { stores: words } = useWords();
  return (
    <aside className="sunken" aria-label={`${words.short}, ${words.low}, ${words.coming}`}>
      <Short shortages={board.shortages} onPart={onPart} />
      <section>
        <h2>{words.twice}</h2>
        <ul>
          <li>
            <b>{words.twiceNone}</b>
            <p>{words.twiceWhy}</p>
          </li>
        </ul>
      </section>
      <Low low={board.low} total={board.lowTotal} onPart={onPart} />
      <Coming coming={board.coming} total={board.comingTotal} onReceive={onReceive} onPart={onPart} />
    </aside>
  );
}

function Short({
  shortages,
  onPart,
}: {
  readonly shortages: StoresBoard['shortages'];
  readonly onPart: (id: string) => void;
}) {
  const { stores: words } = useWords();
  const format = useFormat();
  return (
    <section>
      <h2>{words.short}</h2>
      {shortages.length === 0 ? <p className="nothing">{words.shortNone}</p> : null}
      <ul>
        {shortages.map(({ demandLineId, part, job, short, since, expectedOn }) => (
          <li key={demandLineId}>
            <button type="button" className="part-link" onClick={() => onPart(part.id)}>
              <b>{words.partAndCount(part.name, short)}</b>
            </button>
            {expectedOn === null ? (
              <b className="hot">{words.noDate}</b>
            ) : (
              <span className="num">{format.day(expectedOn)}</span>
            )}
            <p>{words.waitsFor(job.family, job.serial, format.since(since))}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface LowProps extends Pick<AsideProps, 'onPart'> {
  readonly low: StoresBoard['low'];
  readonly total: number;
}

function Low({ low, total, onPart }: LowProps) {
  const { stores: words } = useWords();
  return (
    <section>
      <h2>{words.low}</h2>
      {low.length === 0 ? <p className="nothing">{words.lowNone}</p> : null}
      <ul>
        {low.map(({ part, onHand, reserved, reorderPoint, coming }) => (
          <li key={part.id}>
            <button type="button" className="part-link" onClick={() => onPart(part.id)}>
              <b>{part.name}</b> <span className="note num">{part.number}</span>
            </button>
            <span className="num">{words.left(onHand, reorderPoint)}</span>
            {reserved + coming > 0 ? <p>{words.lowDetail(reserved, coming)}</p> : null}
          </li>
        ))}
      </ul>
      <FirstOf shown={low.length} of={total}>
        {words.lowMore} <Link to="/stores/order">{words.desks.order}</Link>.
      </FirstOf>
    </section>
  );
}

function Coming({
  coming,
  total,
  onReceive,
  onPart,
}: { readonly coming: StoresBoard['coming']; readonly total: number } & Pick<AsideProps, 'onReceive' | 'onPart'>) {
  const { stores: words, storesDesks } = useWords();
  const format = useFormat();
  const stores = useMay('stores');
  return (
    <section>
      <h2>{words.coming}</h2>
      {coming.length === 0 ? <p className="nothing">{words.comingNone}</p> : null}
      <ul>
        {coming.map((line) => (
          <li key={line.id}>
            <button type="button" className="part-link" onClick={() => onPart(line.part.id)}>
              <b>{words.partAndCount(line.part.name, line.quantity - line.received)}</b>
            </button>
            <span className="num">{line.promisedOn === null ? words.noDate : format.day(line.promisedOn)}</span>
            <p>
              {words.comingFor(line.vendor.name, line.job === null ? null : `${line.job.family} ${line.job.serial}`)}
              {line.received > 0 ? `. ${words.received(line.received, line.quantity)}` : ''}
            </p>
            {stores ? (
              <Button aria-label={words.receiveOf(line.part.name)} onClick={() => onReceive(line)}>
                {words.receive}
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
      <FirstOf shown={coming.length} of={total}>
        {words.comingMore} <Link to="/stores/receive">{storesDesks.receive.title}</Link>.
      </FirstOf>
    </section>
  );
}
