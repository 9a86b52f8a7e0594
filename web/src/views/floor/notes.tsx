import { Link } from '@tanstack/react-router';
import { type ReactNode, useId } from 'react';
import type { Floor } from '#contracts/floor.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Note = Floor['notes'][number];

const keyOf = ({ kind, on, jobId, vendor, words }: Note): string =>
  [kind, on, jobId ?? '', vendor?.id ?? '', words].join(' ');

function EngineName({ engine, link }: { readonly engine: NonNullable<Note['engine']>; readonly link: boolean }) {
  const name = (
    <>
      {engine.family} <span className="num nowrap">{engine.serial}</span>
    </>
  );
  return link ? (
    <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
      {name}
    </Link>
  ) : (
    name
  );
}

function NoteWords({ note, inShop }: { readonly note: Note; readonly inShop: boolean }) {
  const words = useWords().floor;
  const engine = note.engine === null ? null : <EngineName engine={note.engine} link={inShop} />;
  const vendor = note.vendor?.name ?? '';
  const what = note.quantity === null ? note.words : words.count(note.quantity, note.words);
  const said: Readonly<Record<Note['kind'], ReactNode>> = {
    promise: (
      <>
        {engine} {words.promiseTo}
        {note.waits === 0 ? null : <span className="note">; {words.promiseWaits(note.waits)}</span>}
      </>
    ),
    delivery: (
      <>
        {words.delivery(what, vendor)}
        {engine === null ? null : <span className="note">, {engine}</span>}
      </>
    ),
    return: (
      <>
        {engine} <span className="note">{words.returns(what, vendor)}</span>
      </>
    ),
  };
  return said[note.kind];
}

/** What comes next at the counter and in stores, day by day. */
export function Notes({ floor }: { readonly floor: Floor }) {
  const words = useWords().floor;
  const format = useFormat();
  const id = useId();
  const inShop = new Set(floor.engines.map((engine) => engine.id));
  const dayOf = (on: string) =>
    on === floor.today ? words.today : on < floor.today ? words.wasDue(format.day(on)) : format.day(on);
  return (
    <section className="edge notes" aria-labelledby={id}>
      <h3 id={id}>{words.notes}</h3>
      {floor.notes.length === 0 ? <p className="bay-empty">{words.noNotes}</p> : null}
      <ul>
        {floor.notes.map((note) => (
          <li key={keyOf(note)}>
            <b className={note.on < floor.today ? 'num hot' : 'num'}>{dayOf(note.on)}</b>
            <span>
              <NoteWords note={note} inShop={note.engine !== null && inShop.has(note.engine.id)} />
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
