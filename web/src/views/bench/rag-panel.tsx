import { useState } from 'react';
import type { Opening } from '#contracts/openings.ts';
import type { PutInThing } from '#contracts/searches.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Kind = 'rag' | 'plug' | 'tool';

/** What goes in, how many, and where: a place named in one tap, or keyed. */
function PutInDialog({
  opening,
  kind,
  onClose,
}: {
  readonly opening: Opening;
  readonly kind: Kind;
  readonly onClose: () => void;
}) {
  const { rag: words } = useWords().procedure;
  const [where, setWhere] = useState('');
  const [count, setCount] = useState(1);
  const writing = useWrite();
  const ready = where.trim() !== '' && !writing.busy;
  return (
    <Dialog title={words.inTitle[kind]} open onClose={onClose}>
      <form
        className="hands-form"
        onSubmit={(event) => {
          event.preventDefault();
          const body = { kind, name: words.name[kind], where: where.trim(), count };
          if (ready) writing.write({ path: `/openings/${opening.id}/put-in`, body }, onClose);
        }}
      >
        <Field label={words.where} big>
          {(input) => (
            <input {...input} maxLength={200} value={where} onChange={({ target }) => setWhere(target.value)} />
          )}
        </Field>
        <div className="quick">
          {words.places[kind].map((place) => (
            <Button key={place} big aria-pressed={where === place} onClick={() => setWhere(place)}>
              {place}
            </Button>
          ))}
        </div>
        <div className="count-how">
          <b>{words.howMany}</b>
          <Stepper label={words.howMany} value={count} min={1} max={20} onChange={setCount} />
        </div>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" big kind="main" disabled={!ready}>
            {words.putIn}
          </Button>
          <Button big onClick={onClose}>
            {words.cancel}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

function LostForm({ thing, onClose }: { readonly thing: PutInThing; readonly onClose: () => void }) {
  const { rag: words } = useWords().procedure;
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const lost = thing.notFound > 0;
  const act = lost ? 'found' : 'not-found';
  const most = lost ? thing.notFound : thing.stillIn;
  const [count, setCount] = useState(most);
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <form
      className="hands-form"
      onSubmit={(event) => {
        event.preventDefault();
        const body = { count, reason: reason.trim() };
        if (ready) writing.write({ path: `/put-in/${thing.id}/${act}`, body }, onClose);
      }}
    >
      {most === 1 ? null : (
        <div className="count-how">
          <b>{words.howMany}</b>
          <Stepper label={words.howMany} value={count} min={1} max={most} onChange={setCount} />
        </div>
      )}
      <Field label={lost ? words.foundWhere : words.lostHow} big>
        {(input) => (
          <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <Refusal error={writing.error} />
      <div className="hands-acts">
        <Button type="submit" big kind="main" disabled={!ready}>
          {lost ? words.sayFound : words.sayLost}
        </Button>
        <Button big onClick={onClose}>
          {words.cancel}
        </Button>
      </div>
    </form>
  );
}

function Thing({ thing }: { readonly thing: PutInThing }) {
  const { rag: words } = useWords().procedure;
  const format = useFormat();
  const writing = useWrite();
  const [asking, setAsking] = useState(false);
  const known = thing.stillIn - thing.notFound;
  return (
    <li>
      <b>{words.item(thing.stillIn, thing.name, thing.where)}</b>
      <span className="note">{words.by(thing.by.name, format.since(thing.at))}</span>
      {thing.notFound > 0 ? <b className="hot">{words.lost(thing.notFound)}</b> : null}
      {asking ? (
        <LostForm thing={thing} onClose={() => setAsking(false)} />
      ) : (
        <div className="hands-acts">
          {known > 0 ? (
            <Button
              big
              kind="main"
              disabled={writing.busy}
              onClick={() => writing.write({ path: `/put-in/${thing.id}/taken-out`, body: { count: known } })}
            >
              {words.out(`${thing.name}, ${thing.where}`)}
            </Button>
          ) : null}
          <Button big onClick={() => setAsking(true)}>
            {thing.notFound > 0 ? words.found : words.notThere}
          </Button>
        </div>
      )}
      <Refusal error={writing.error} />
    </li>
  );
}

/** Rags, plugs and tools put in: each is counted, and has to come out before the engine is closed. */
export function RagPanel({ opening }: { readonly opening: Opening }) {
  const { rag: words } = useWords().procedure;
  const [kind, setKind] = useState<Kind | null>(null);
  const inside = opening.putIn.filter(({ stillIn }) => stillIn > 0);
  return (
    <section className="rags" id="put-in" tabIndex={-1} aria-label={words.title}>
      <h2>{words.title}</h2>
      {inside.length === 0 ? <p className="note">{words.none}</p> : null}
      <ul>
        {inside.map((thing) => (
          <Thing key={thing.id} thing={thing} />
        ))}
      </ul>
      <div className="hands-acts">
        {(['rag', 'plug', 'tool'] as const).map((each) => (
          <Button key={each} big onClick={() => setKind(each)}>
            {words.inTitle[each]}
          </Button>
        ))}
      </div>
      {kind === null ? null : <PutInDialog opening={opening} kind={kind} onClose={() => setKind(null)} />}
    </section>
  );
}
