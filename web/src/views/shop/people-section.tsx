import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { People } from '#contracts/people.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { PersonDialog, PinDialog } from './person-dialogs.tsx';
import { peopleQuery } from './shop-queries.ts';

type Person = People['items'][number];

function PersonLine({
  person,
  change,
  pin,
}: {
  readonly person: Person;
  readonly change: () => void;
  readonly pin: () => void;
}) {
  const { people: words, change: changeWord, changeOf } = useWords().shop;
  const format = useFormat();
  const writing = useWrite();
  const gone = person.leftAt !== null;
  const standing = gone
    ? [words.left(format.since(person.leftAt ?? ''))]
    : [words.holds(person.holds), words.signedIn(person.signedIn)].filter((text) => text !== '');
  return (
    <li className="set-up-line">
      <span className="initials num">{person.initials}</span>
      <div>
        <b>{person.name}</b>
        <span className="note line">{person.roles.join(', ')}</span>
      </div>
      <div className="note">
        {standing.join(', ')}
        <span className="line num">{words.since(format.since(person.joinedAt))}</span>
        <Refusal error={writing.error} />
      </div>
      <div className="set-up-acts">
        {gone ? (
          <Button
            disabled={writing.busy}
            onClick={() => writing.write({ path: `/people/${person.id}/come-back`, body: {} })}
          >
            {words.comeBack}
          </Button>
        ) : (
          <>
            <Button aria-label={changeOf(person.name)} onClick={change}>
              {changeWord}
            </Button>
            <Button onClick={pin}>{words.givePin}</Button>
            <Button
              disabled={writing.busy}
              onClick={() => writing.write({ path: `/people/${person.id}/leave`, body: {} })}
            >
              {words.leave}
            </Button>
          </>
        )}
      </div>
    </li>
  );
}

/** Who works here, what they may do, and who did once. */
export function PeopleSection() {
  const words = useWords().shop.people;
  const { reading } = useWords().shop;
  const query = useQuery(peopleQuery);
  const [changing, setChanging] = useState<Person | 'new' | null>(null);
  const [pinOf, setPinOf] = useState<Person | null>(null);
  const items = query.data?.items ?? [];
  const former = items.filter(({ leftAt }) => leftAt !== null);
  const lines = (some: readonly Person[]) => (
    <ul className="set-up-lines">
      {some.map((person) => (
        <PersonLine key={person.id} person={person} change={() => setChanging(person)} pin={() => setPinOf(person)} />
      ))}
    </ul>
  );
  return (
    <section aria-labelledby="shop-people">
      <div className="set-up-head">
        <h2 id="shop-people">{words.title}</h2>
        <div className="set-up-acts">
          <Button onClick={() => setChanging('new')}>{words.add}</Button>
          <Link className="btn" to="/labels" hash="badges">
            {words.badges}
          </Link>
        </div>
      </div>
      {query.isPending ? <Skeleton label={reading} lines={6} /> : null}
      {query.isError && query.data === undefined ? (
        <Failed error={query.error} again={() => void query.refetch()} />
      ) : null}
      {lines(items.filter(({ leftAt }) => leftAt === null))}
      {former.length === 0 ? null : (
        <details>
          <summary>{words.former(former.length)}</summary>
          {lines(former)}
        </details>
      )}
      {changing === null ? null : (
        <PersonDialog person={changing === 'new' ? null : changing} onClose={() => setChanging(null)} />
      )}
      {pinOf === null ? null : <PinDialog person={pinOf} onClose={() => setPinOf(null)} />}
    </section>
  );
}
