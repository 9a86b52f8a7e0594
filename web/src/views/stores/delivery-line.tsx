import type { ExpectedLine } from '#contracts/deliveries.ts';
import type { Bins } from '#contracts/stores.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type Entry, entryOf, openOf } from './delivery-entry.ts';
import { DeliveryFields } from './delivery-fields.tsx';
import { Tick, type Ticks } from './ticks.tsx';

const tickName = ({ part, orderNumber }: ExpectedLine): string =>
  orderNumber === null ? part.name : `${part.name}, ${orderNumber}`;

interface LineProps {
  readonly line: ExpectedLine;
  readonly ticks: Ticks;
  readonly entry: Entry | undefined;
  readonly bins: Bins['items'];
  readonly error: Error | null;
  /** Where it stands in what is sent, to tell whose refusal it is. */
  readonly at: number;
  /** Undefined: one may look, not take in. */
  readonly onChange: ((entry: Entry | null) => void) | undefined;
}

/** One line that is to come; once it came, its fields. */
export function DeliveryLine({ line, ticks, entry, bins, error, at, onChange }: LineProps) {
  const { receive: words } = useWords().storesDesks;
  const { packs: packWords } = useWords();
  const format = useFormat();
  const { part, job, promisedOn, late, theirNumber, words: told } = line;
  const day =
    promisedOn === null ? words.noDay : late ? words.late(format.day(promisedOn)) : words.due(format.day(promisedOn));
  return (
    <li className={entry === undefined ? 'expected' : 'expected came'} id={`expected-${line.id}`}>
      <div className={onChange === undefined ? 'expected-head' : 'expected-head ticked'}>
        {onChange === undefined ? null : <Tick ticks={ticks} of={{ id: line.id, name: tickName(line) }} />}
        <div>
          <b>{part.name}</b> <span className="num note">{part.number}</span>
          {theirNumber === '' ? null : <span className="num note"> {words.yours(theirNumber)}</span>}
          {told === '' ? null : <p>{words.asOrdered(told)}</p>}
          {job === null ? null : <p className="quiet">{words.forJob(job.number, job.family, job.serial)}</p>}
        </div>
        <p className="num">
          {words.open(openOf(line), line.quantity)}
          {line.packSize === 1 ? null : <span className="note"> {packWords.packs(format.number(line.packSize))}</span>}
        </p>
        <p className={late ? 'hot' : 'note'}>{day}</p>
        {onChange === undefined ? null : entry === undefined ? (
          <Button kind="main" aria-label={words.cameOf(part.name)} onClick={() => onChange(entryOf(line))}>
            {words.came}
          </Button>
        ) : (
          <Button aria-label={words.notOf(part.name)} onClick={() => onChange(null)}>
            {words.not}
          </Button>
        )}
      </div>
      {entry === undefined || onChange === undefined ? null : (
        <DeliveryFields line={line} entry={entry} bins={bins} error={error} at={at} onChange={onChange} />
      )}
    </li>
  );
}
