import { useMutation, useQuery } from '@tanstack/react-query';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { SignInChoices } from '#contracts/session.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { signIn, signInByBadge } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { BrandMark } from '../../drawings/brand-mark.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { NumberPad } from '../../kit/number-pad.tsx';
import { takeBadge } from '../../scan/badge.ts';
import { ScanButton } from '../../scan/scan-button.tsx';
import { listenToReader } from '../../scan/wedge.ts';
import { useWords } from '../../words/words.tsx';
import './sign-in.css';

const TERMINAL_KEY = 'crosshatch-terminal';
type Person = Pick<SignInChoices['people'][number], 'id' | 'name'> & {
  /** The badge that was held to the terminal: it and the PIN open together. */
  readonly badge?: string;
};

function PinEntry({ person, terminalId, back }: { person: Person; terminalId: string; back: () => void }) {
  const { app } = useWords();
  const [pin, setPin] = useState('');
  const input = useRef<HTMLInputElement>(null);
  const entering = useMutation({
    mutationFn: async (typed: string) => {
      const at = terminalId === '' ? {} : { terminalId };
      if (person.badge === undefined) await signIn({ personId: person.id, pin: typed, ...at });
      else await signInByBadge({ code: person.badge, pin: typed, ...at });
    },
    onError: () => setPin(''),
  });
  useEffect(() => input.current?.focus(), []);
  const enter = (event?: FormEvent) => {
    event?.preventDefault();
    if (pin.length >= 4 && !entering.isPending) entering.mutate(pin);
  };
  return (
    <form className="pin" onSubmit={enter}>
      <h2>{person.name}</h2>
      {person.badge === undefined ? null : <p role="status">{app.signIn.badgeRead(person.name)}</p>}
      <div className="field big">
        <label htmlFor="pin">{app.signIn.pin}</label>
        <input
          id="pin"
          ref={input}
          type="password"
          inputMode="none"
          autoComplete="off"
          maxLength={12}
          aria-label={app.signIn.pinOf(person.name)}
          aria-invalid={entering.isError}
          aria-describedby={entering.isError ? 'pin-error' : undefined}
          value={pin}
          onChange={(event) => setPin(event.target.value.replace(/\D/g, ''))}
        />
        {entering.isError ? (
          <p className="field-error" id="pin-error" role="alert">
            {entering.error.message}
          </p>
        ) : null}
      </div>
      <NumberPad
        label={app.signIn.pinOf(person.name)}
        decimalKey={false}
        onKey={(key) => setPin((typed) => (key === 'Backspace' ? typed.slice(0, -1) : `${typed}${key}`.slice(0, 12)))}
      />
      <div className="acts">
        <button type="button" className="btn big" onClick={back}>
          {app.signIn.other}
        </button>
        <button type="submit" className="btn big main" disabled={pin.length < 4 || entering.isPending}>
          {app.signIn.enter}
        </button>
      </div>
    </form>
  );
}

function TerminalChoice({
  terminals,
  chosen,
  choose,
}: {
  terminals: SignInChoices['terminals'];
  chosen: string;
  choose: (id: string) => void;
}) {
  const { app } = useWords();
  return (
    <div className="field terminal">
      <label htmlFor="terminal">{app.signIn.terminal}</label>
      <select id="terminal" value={chosen} onChange={(event) => choose(event.target.value)}>
        <option value="">{app.signIn.noTerminal}</option>
        <NamedOptions of={terminals} />
      </select>
    </div>
  );
}

/** A badge held to the reader or the camera opens, or says whose PIN is wanted. */
function useBadge(terminalId: string, ask: (person: Person) => void) {
  const reading = useMutation({
    mutationFn: async (code: string) => ({
      code,
      pinOf: await signInByBadge({ code, ...(terminalId === '' ? {} : { terminalId }) }),
    }),
    onSuccess: ({ code, pinOf }) => (pinOf === null ? undefined : ask({ ...pinOf, badge: code })),
  });
  const { mutate } = reading;
  useEffect(() => {
    const waiting = takeBadge();
    if (waiting !== undefined) mutate(waiting);
    return listenToReader(mutate);
  }, [mutate]);
  return reading;
}

/** Who is at this terminal: a name to tap, then the PIN on the pad or the keyboard. */
export function SignInView() {
  const { app } = useWords();
  const choices = useQuery({
    queryKey: ['sign-in'],
    queryFn: ({ signal }) => read<SignInChoices>('/sign-in', signal),
    meta: { follows: 'no change' },
  });
  const [person, setPerson] = useState<Person | null>(null);
  const [terminal, setTerminal] = useState(() => localStorage.getItem(TERMINAL_KEY) ?? '');
  const known = choices.data?.terminals.some(({ id }) => id === terminal) ?? false;
  const badge = useBadge(known ? terminal : '', setPerson);
  const choose = (id: string) => {
    localStorage.setItem(TERMINAL_KEY, id);
    setTerminal(id);
  };
  if (choices.isError) return <Failed error={choices.error} again={() => void choices.refetch()} />;
  return (
    <main className="sign-in">
      <header>
        <BrandMark size={40} />
        <div>
          <h1>{choices.data?.shop || app.name}</h1>
          <p className="note">
            {app.signIn.title} {app.signIn.badge}
          </p>
        </div>
        <ScanButton bare />
      </header>
      <Refusal error={badge.error} />
      {person !== null ? (
        <PinEntry
          key={person.badge ?? person.id}
          person={person}
          terminalId={known ? terminal : ''}
          back={() => setPerson(null)}
        />
      ) : choices.data?.people.length === 0 ? (
        <p className="state empty">{app.signIn.nobody}</p>
      ) : (
        <ul className="people">
          {choices.data?.people.map((each) => (
            <li key={each.id}>
              <button type="button" className="person" onClick={() => setPerson(each)}>
                <span className="initials num">{each.initials}</span>
                <b>{each.name}</b>
                <span className="note">{each.roles.join(', ')}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {choices.data === undefined || choices.data.terminals.length === 0 ? null : (
        <TerminalChoice terminals={choices.data.terminals} chosen={known ? terminal : ''} choose={choose} />
      )}
    </main>
  );
}
