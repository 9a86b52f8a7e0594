import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import type { Wait } from '#contracts/floor.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { type Format, useFormat } from '../../words/format.ts';
import { useWords, type Words } from '../../words/words.tsx';
import { kindOf } from './wait-labels.ts';

type Standing = NonNullable<EnginePage['standing']>;

const who = ({ endedBy }: Wait, words: Words['engine']): string =>
  endedBy.kind === 'right' ? words.need.rights[endedBy.right] : endedBy.name;

/** What is to be decided, from what the obligation came: fewer words than the obligation's own. */
function decisionAbout(wait: Wait, obligations: EnginePage['obligations'], words: Words['engine']): string {
  const cause = obligations.find(({ id }) => id === wait.cause.id)?.cause;
  if (cause === undefined || cause.kind === 'lead') return '';
  return cause.kind === 'finding' ? words.wait.finding(cause.name, cause.verdict) : cause.piece;
}

function titleOf(wait: Wait, obligations: EnginePage['obligations'], words: Words['engine']): string {
  const name = who(wait, words);
  switch (wait.waitsFor) {
    case 'decision':
      return words.need.decision(decisionAbout(wait, obligations, words));
    case 'parts':
      return words.need.parts(wait.words);
    case 'outside':
      return words.need.outside(wait.words, name);
    case 'yes':
      return words.need.yes(name);
    case 'bay':
      return words.need.bay(name);
    case 'person':
      return wait.cause.kind === 'handover' ? words.need.handover(name) : words.need.proof(wait.words);
  }
}

function detailOf(wait: Wait, today: string, { format, words }: { format: Format; words: Words['engine'] }): string {
  const due =
    wait.dueOn === null
      ? wait.waitsFor === 'parts' || wait.waitsFor === 'outside'
        ? words.need.noDate
        : ''
      : wait.dueOn < today
        ? words.need.wasDue(format.day(wait.dueOn))
        : words.need.due(format.day(wait.dueOn));
  const said = wait.waitsFor === 'decision' ? wait.words : '';
  // A bay ends nothing by itself: whoever stands in it has to leave.
  const end = wait.endedBy.kind === 'bay' ? '' : words.need.whoCan(who(wait, words));
  return [said, words.need.since(format.since(wait.since)), due, end].filter((part) => part !== '').join(' ');
}

function SignOff({ proofId }: { readonly proofId: string }) {
  const words = useWords().engine.need;
  const writing = useWrite();
  return (
    <div>
      <Button disabled={writing.busy} onClick={() => writing.write({ path: `/proofs/${proofId}/sign-off`, body: {} })}>
        {words.signOff}
      </Button>
      <Refusal error={writing.error} />
    </div>
  );
}

/** The act that ends a wait, where the reader may do it. */
function NeedAct({
  wait,
  standing,
  decide,
}: {
  wait: Wait;
  standing: Standing;
  decide: (obligationId: string) => void;
}) {
  const words = useWords().engine.need;
  const may = {
    decide: useMay('decide'),
    stores: useMay('stores'),
    counter: useMay('counter'),
    money: useMay('money'),
    bench: useMay('bench'),
  };
  const self = useSession().person.id;
  const params = { jobId: standing.job.id };
  switch (wait.waitsFor) {
    case 'decision':
      return may.decide ? (
        <Button kind="main" onClick={() => decide(wait.cause.id)}>
          {words.decide}
        </Button>
      ) : null;
    case 'parts':
      return may.stores ? (
        <Link to="/stores" className="btn">
          {words.toStores}
        </Link>
      ) : null;
    case 'yes':
      return may.counter && may.money ? (
        <Link to="/counter/$jobId" params={params} className="btn">
          {words.toQuote}
        </Link>
      ) : null;
    case 'bay':
      return may.counter ? (
        <Link to="/counter/$jobId" params={params} className="btn">
          {words.planBay}
        </Link>
      ) : null;
    case 'person': {
      if (wait.cause.kind !== 'handover') return may.bench ? <SignOff proofId={wait.cause.id} /> : null;
      const mine = wait.endedBy.kind === 'person' && wait.endedBy.id === self;
      return may.bench ? (
        <Link to="/handovers/$handoverId" params={{ handoverId: wait.cause.id }} className={mine ? 'btn main' : 'btn'}>
          {mine ? words.count : words.look}
        </Link>
      ) : null;
    }
    case 'outside':
      return null;
  }
}

type Props = {
  readonly standing: Standing;
  readonly obligations: EnginePage['obligations'];
  readonly today: string;
  readonly decide: (obligationId: string) => void;
};

/** What the job can't go on without: since when, until when, who can end it, and how. */
export function Needs({ standing, obligations, today, decide }: Props) {
  const words = useWords().engine;
  const format = useFormat();
  const order = (wait: Wait): number => (kindOf(wait, today) === 'now' ? 0 : 1);
  const waits = [...standing.waits].sort((a, b) => order(a) - order(b));
  const body: ReactNode =
    waits.length === 0 ? (
      <p className="note">{words.waitsForNothing}</p>
    ) : (
      <ul className="needs">
        {waits.map((wait) => {
          const now = order(wait) === 0;
          return (
            <li key={`${wait.cause.kind} ${wait.cause.id}`} className={now ? 'need now' : 'need'}>
              <div>
                <b className={now ? 'hot' : undefined}>{titleOf(wait, obligations, words)}</b>
                <p className="note">{detailOf(wait, today, { format, words })}</p>
              </div>
              <NeedAct wait={wait} standing={standing} decide={decide} />
            </li>
          );
        })}
      </ul>
    );
  return (
    <section className="page-needs" aria-labelledby="waits-for">
      <h2 id="waits-for">{words.waitsFor}</h2>
      {body}
    </section>
  );
}
