import { useState } from 'react';
import type { DemandLine, JobDemands } from '#contracts/demands.ts';
import type { JobName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import type { Hold } from './hold-until.tsx';
import { LineDialog } from './line-dialog.tsx';
import { LineState } from './line-state.tsx';

/** What has to be known of a line beyond part, count and state: why it is wanted, until when it is held or missing. */
function Why({ line }: { readonly line: DemandLine }) {
  const { stores: words } = useWords();
  const format = useFormat();
  const reasons = line.reasons
    .filter(({ withdrawn }) => !withdrawn)
    .map(({ words: text, comesWith }) => (comesWith === null ? text : words.line.with(comesWith.name)));
  const expiries = line.held.flatMap(({ expiresAt }) => (expiresAt === null ? [] : [expiresAt]));
  const until = expiries.toSorted()[0];
  const lots = [...new Set(line.held.map(({ lot }) => lot).filter((lot) => lot !== ''))];
  const told = [
    ...new Set(reasons.filter((text) => text !== '')),
    ...(line.lotRule === null || line.lotRule.rule === 'oldest' ? [] : [line.lotRule.words]),
    ...lots.map(words.line.lot),
    ...line.held.flatMap(({ againstRule }) => (againstRule === null ? [] : [words.line.against(againstRule)])),
    ...new Set(line.held.flatMap(({ instead }) => (instead === null ? [] : [words.line.instead(instead.number)]))),
    ...(line.short > 0 && line.shortSince !== null
      ? [
          words.line.since(format.since(line.shortSince)),
          line.expectedOn === null ? words.line.noDate : words.line.expected(format.day(line.expectedOn)),
          ...line.expectedFrom.map(({ number }) => words.line.instead(number)),
        ]
      : []),
    ...(until === undefined ? [] : [words.line.heldUntil(format.since(until))]),
  ];
  return told.length === 0 ? null : <p className="note">{told.join(', ')}</p>;
}

/** The counts of a line that stands in more than one way: 2 reserved, 6 short. */
function Counts({ line }: { readonly line: DemandLine }) {
  const { states, counts } = useWords().stores.line;
  const told = (['reserved', 'short', 'issued', 'cancelled', 'notAsked'] as const).filter((state) => line[state] > 0);
  if (told.length < 2) return null;
  return <p className="note num">{told.map((state) => counts(line[state], states[state])).join(', ')}</p>;
}

interface RowProps {
  readonly line: DemandLine;
  readonly job: JobName;
  /** Until when what is reserved for the job is held; null: firmly. */
  readonly hold: Hold | null;
  /** True when the scanned bin holds pieces of it. */
  readonly marked: boolean;
  readonly onOrder: (line: DemandLine) => void;
  readonly onPart: (partId: string) => void;
}

/** One line of what a job wants, with the act that comes next. */
export function DemandRow({ line, job, hold, marked, onOrder, onPart }: RowProps) {
  const { line: words } = useWords().stores;
  const [more, setMore] = useState(false);
  const writing = useWrite<JobDemands>();
  const bins = [...new Set(line.held.map(({ bin }) => bin))];
  return (
    <li className={marked ? 'line marked' : 'line'} id={`line-${line.id}`}>
      <div className="what">
        <button type="button" className="part-link" onClick={() => onPart(line.part.id)}>
          <b>{line.part.name}</b> <span className="note num nowrap">{line.part.number}</span>
        </button>
        <Why line={line} />
        <Counts line={line} />
        <Refusal error={writing.error} />
      </div>
      <span className="qty num">{line.wanted}</span>
      <span className="bin num">{bins.length === 0 ? words.none : bins.join(', ')}</span>
      <LineState state={line.state} />
      <div className="acts">
        <NextAct line={line} hold={hold} writing={writing} onOrder={() => onOrder(line)} />
        <Button aria-label={words.moreOf(line.part.name)} onClick={() => setMore(true)}>
          {words.more}
        </Button>
      </div>
      {more ? <LineDialog line={line} job={job} hold={hold} onClose={() => setMore(false)} /> : null}
    </li>
  );
}

interface NextProps {
  readonly line: DemandLine;
  readonly hold: Hold | null;
  readonly writing: ReturnType<typeof useWrite<JobDemands>>;
  readonly onOrder: () => void;
}

/** The one act a line asks for by its state. */
function NextAct({ line, hold, writing, onOrder }: NextProps) {
  const { line: words } = useWords().stores;
  const [stores, asks] = [useMay('stores'), useMay('ask for parts')];
  const named = (act: string) => ({ 'aria-label': words.actOn(act, line.part.name), disabled: writing.busy });
  const at = `/demand-lines/${line.id}`;
  if (line.state === 'pick now' && stores) {
    const act = words.pick(line.reserved);
    return (
      <Button
        kind="main"
        {...named(act)}
        onClick={() => writing.write({ path: `${at}/issue`, body: { quantity: line.reserved } })}
      >
        {act}
      </Button>
    );
  }
  if (line.state === 'reserved' && stores) {
    return (
      <Button kind="held" {...named(words.release)} onClick={() => writing.write({ path: `${at}/release`, body: {} })}>
        {words.release}
      </Button>
    );
  }
  if (line.state === 'not asked' && asks) {
    const body = { allOrNothing: true, demandLineIds: [line.id], ...hold?.body };
    return (
      <Button
        {...named(words.reserve)}
        disabled={writing.busy || hold?.past === true}
        onClick={() => writing.write({ path: `/jobs/${line.jobId}/reservations`, body })}
      >
        {words.reserve}
      </Button>
    );
  }
  if (line.state === 'short' && line.expectedOn === null && stores) {
    return (
      <Button {...named(words.order)} onClick={onOrder}>
        {words.order}
      </Button>
    );
  }
  return null;
}
