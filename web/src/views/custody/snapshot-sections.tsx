import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { ShiftSnapshot } from '#contracts/custody-past.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { HeldFrame, HolderCell } from './held-frame.tsx';
import { HeldSubjects } from './held-subjects.tsx';
import { heldTogether } from './held-together.ts';

type Item = ShiftSnapshot['items'][number];

function Part({
  title,
  count,
  children,
}: {
  readonly title: string;
  readonly count: number;
  readonly children: ReactNode;
}) {
  return (
    <section aria-label={title}>
      <h2>
        {title} <span className="num">{count}</span>
      </h2>
      {children}
    </section>
  );
}

function useSubjectWords() {
  const words = useWords().custody;
  return ({ subject, engine }: Pick<Item, 'subject' | 'engine'>): string =>
    subject.kind === 'engine'
      ? `${engine.family} ${engine.serial}`
      : `${words.tray(subject.name)} ${words.ofEngine(engine.serial)}`;
}

/** Who still has what in hand, person by person. */
function StillHeld({ items }: { readonly items: readonly Item[] }) {
  const words = useWords().custody;
  const format = useFormat();
  const inHand = items.filter(({ holder }) => holder.kind === 'person');
  const people = [...new Map(inHand.map(({ holder }) => [holder.id, holder.name]))];
  return (
    <Part title={words.shift.people} count={inHand.length}>
      {people.length === 0 ? <p>{words.shift.peopleNone}</p> : null}
      {people.map(([id, name]) => (
        <div key={id} className="still">
          <h3>{name}</h3>
          <ul>
            {heldTogether(
              inHand.filter(({ holder }) => holder.id === id),
              ({ since }) => [since],
            ).map(({ item, itself, trays }) => (
              <li key={item.subject.id}>
                <HeldSubjects engine={item.engine} itself={itself} trays={trays} />, {item.place?.name ?? words.noPlace}{' '}
                <span className="note num">{format.since(item.since)}</span>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </Part>
  );
}

function Unanswered({ offers }: Pick<ShiftSnapshot, 'offers'>) {
  const words = useWords().custody.shift;
  const format = useFormat();
  return (
    <Part title={words.offers} count={offers.length}>
      {offers.length === 0 ? <p>{words.offersNone}</p> : null}
      <ul>
        {offers.map(({ id, engine, giver, receiver, offeredAt, overdue }) => (
          <li key={id}>
            <Link to="/handovers/$handoverId" params={{ handoverId: id }}>
              {words.offer(giver.name, receiver.name)}
            </Link>{' '}
            <span className="num nowrap">{engine.serial}</span>{' '}
            <span className="note num">{words.offeredAt(format.since(offeredAt))}</span>{' '}
            {overdue ? <b className="hot">{words.overdue}</b> : null}
          </li>
        ))}
      </ul>
    </Part>
  );
}

function Uncovered({ uncovered }: Pick<ShiftSnapshot, 'uncovered'>) {
  const words = useWords().custody.shift;
  const format = useFormat();
  return (
    <Part title={words.uncovered} count={uncovered.length}>
      {uncovered.length === 0 ? <p>{words.uncoveredNone}</p> : null}
      <ul>
        {uncovered.map(({ engine, depth, since, place }) => (
          <li key={engine.id}>
            <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
              {engine.family} <span className="num nowrap">{engine.serial}</span>
            </Link>
            , {words.depth[depth]}
            {place === null ? '' : `, ${place.name}`}{' '}
            <span className="note num">{words.uncoveredSince(format.since(since))}</span>
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** What a shift's end is about: what nobody holds, what stays in hand, unanswered, uncovered. */
export function SnapshotSections({ snapshot }: { readonly snapshot: ShiftSnapshot }) {
  const words = useWords().custody;
  const inWords = useSubjectWords();
  const { items, unheld } = snapshot;
  return (
    <>
      <Part title={words.shift.unheld} count={unheld.length}>
        <p className={unheld.length === 0 ? '' : 'hot'}>
          {unheld.length === 0 ? words.shift.unheldNone : words.shift.unheldSome}
        </p>
        <ul>
          {unheld.map((each) => (
            <li key={each.subject.id}>{inWords(each)}</li>
          ))}
        </ul>
      </Part>
      <div className="shift-columns">
        <StillHeld items={items} />
        <div>
          <Unanswered offers={snapshot.offers} />
          <Uncovered uncovered={snapshot.uncovered} />
        </div>
      </div>
    </>
  );
}

/** Each engine and tray with its holder and place. */
export function EverythingHeld({ items }: Pick<ShiftSnapshot, 'items'>) {
  const words = useWords().custody;
  const format = useFormat();
  return (
    <Part title={words.shift.everything} count={items.length}>
      <HeldFrame columns={[words.columns.what, words.shift.holder, words.columns.where, words.columns.since]}>
        {heldTogether(items, ({ since }) => [since]).map(({ item, itself, trays }) => (
          <tr key={item.subject.id}>
            <th scope="row">
              <HeldSubjects engine={item.engine} itself={itself} trays={trays} />
            </th>
            <HolderCell label={words.shift.holder} holder={item.holder} />
            <td data-label={words.columns.where}>{item.place?.name ?? words.noPlace}</td>
            <td data-label={words.columns.since} className="num">
              {format.since(item.since)}
            </td>
          </tr>
        ))}
      </HeldFrame>
    </Part>
  );
}
