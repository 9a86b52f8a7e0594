import type { EngineStanding, Floor, Wait } from '#contracts/floor.ts';
import type { WaitKind } from '../../kit/waits.tsx';
import type { Format } from '../../words/format.ts';
import type { Words } from '../../words/words.tsx';

/** A wait as a short label; `spanFrom` is lettered behind it and ticks. */
export interface WaitLabel {
  readonly id: string;
  readonly kind: WaitKind;
  readonly text: string;
  readonly spanFrom?: string;
}

export interface LabelFacts {
  readonly waits: readonly Wait[];
  readonly opening: EngineStanding['opening'];
  readonly handovers: EngineStanding['handovers'];
  /** Findings that opened obligations: they say in fewer words what is to be decided. */
  readonly findings: Floor['pastOrUndecided'];
  readonly today: string;
}

export interface Telling {
  readonly format: Pick<Format, 'day' | 'since'>;
  readonly words: Words['engine'];
}

/** What asks for a hand now comes first. */
const rank: Readonly<Record<WaitKind, number>> = { now: 0, offered: 1, dated: 2, somebody: 3 };

const overdue = ({ dueOn }: Wait, today: string): boolean => dueOn !== null && dueOn < today;

/** needs a hand; has a date; waits for somebody; is offered. */
export function kindOf(wait: Wait, today: string): WaitKind {
  switch (wait.waitsFor) {
    case 'decision':
      return 'now';
    case 'parts':
      return wait.dueOn === null || overdue(wait, today) ? 'now' : 'dated';
    case 'outside':
      return overdue(wait, today) ? 'now' : wait.dueOn === null ? 'somebody' : 'dated';
    case 'person':
      return wait.cause.kind === 'handover' ? 'offered' : 'somebody';
    case 'yes':
    case 'bay':
      return 'somebody';
  }
}

/** An obligation's words begin with what was found: up to the first stop or comma that ends a thought. */
export function shortened(words: string, most = 48): string {
  const first = words.split(/[.;](?:\s|$)/)[0] ?? words;
  if (first.length <= most) return first;
  const cut = first.lastIndexOf(' ', most);
  return `${first.slice(0, cut > most / 2 ? cut : most).replace(/[,:]$/, '')} …`;
}

function textOf(wait: Wait, facts: LabelFacts, { format, words }: Telling): string {
  const due = wait.dueOn === null ? null : format.day(wait.dueOn);
  const late = overdue(wait, facts.today);
  switch (wait.waitsFor) {
    case 'decision': {
      const finding = facts.findings.find(({ obligation }) => obligation?.id === wait.cause.id);
      if (finding === undefined) return words.wait.decision(shortened(wait.words));
      return words.wait.decision(words.wait.finding(finding.name, finding.verdict));
    }
    case 'parts':
      return due === null ? words.wait.partsNoDate(wait.words) : words.wait.parts(wait.words, due, late);
    case 'outside': {
      const vendor = wait.endedBy.kind === 'right' ? '' : wait.endedBy.name;
      return due === null ? words.wait.outsideNoDate(vendor) : words.wait.outside(vendor, due, late);
    }
    case 'person': {
      if (wait.cause.kind !== 'handover') return words.wait.person(wait.words);
      const offer = facts.handovers.find(({ id }) => id === wait.cause.id);
      const receiver = wait.endedBy.kind === 'right' ? '' : wait.endedBy.name;
      const said =
        offer !== undefined && !offer.ofTheEngine ? words.wait.traysOffered(receiver) : words.wait.offered(receiver);
      return offer !== undefined && Date.parse(offer.answerDueAt) < Date.now() ? words.wait.overdue(said) : said;
    }
    case 'yes':
      return words.wait.yes(format.since(wait.since));
    case 'bay':
      return words.wait.bay(wait.endedBy.kind === 'right' ? '' : wait.endedBy.name);
  }
}

/**
 * What an engine waits for as short labels, what needs a hand first. Several waits of one kind for the same thing make
 * one label that tells the first and counts the others.
 */
export function waitLabels(facts: LabelFacts, telling: Telling): WaitLabel[] {
  const groups = new Map<string, { readonly kind: WaitKind; readonly first: Wait; count: number }>();
  for (const wait of facts.waits) {
    const kind = kindOf(wait, facts.today);
    const key = `${wait.waitsFor} ${kind}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { kind, first: wait, count: 1 });
    else group.count += 1;
  }
  const labels: WaitLabel[] = [...groups].map(([id, { kind, first, count }]) => {
    const text = textOf(first, facts, telling);
    return { id, kind, text: count === 1 ? text : telling.words.wait.andMore(text, count - 1) };
  });
  const { opening } = facts;
  if (opening !== null && !opening.covered) {
    labels.push({
      id: 'uncovered',
      kind: 'now',
      text: telling.words.wait.uncovered,
      spanFrom: opening.coveredOrNotSince,
    });
  }
  return labels.sort((a, b) => rank[a.kind] - rank[b.kind]);
}
