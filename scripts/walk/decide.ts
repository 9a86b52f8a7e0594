import type { Quote, QuoteDraft } from '#contracts/counter.ts';
import type { Decided, Obligation } from '#contracts/obligations.ts';
import { inspectBolts } from './assemble.ts';
import { refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { heading, refused, say } from './say.ts';

/** Decides what happens to each part that is past its limit or undecided. */
export async function decide(walk: Walk, job: Job): Promise<void> {
  heading('Decide what the findings oblige to');
  await inspectBolts(walk, job);
  const { items } = await walk.lead.get<{ items: Obligation[] }>(`/jobs/${job.jobId}/obligations`);
  for (const obligation of items.filter(({ state }) => state === 'to decide')) {
    say(obligation.words);
    const code = obligation.finding?.dimension ?? '';
    if (/bore/.test(code)) {
      const refusal = await refusalOf(
        walk.measurer.post('/obligations/decide', { obligationIds: [obligation.id], kind: 'bore', sizeClass: '+0.25' }),
      ).catch(() => undefined);
      if (refusal !== undefined) refused(refusal.detail);
    }
    const kind = /bore|clearance/.test(code) ? 'replate' : 'replace';
    await walk.lead.post<Decided>('/obligations/decide', { obligationIds: [obligation.id], kind });
    say(`  → ${kind}, decided by ${walk.lead.name}`);
  }
}

/** What is still open in the end is accepted or settled by the lead, by name. */
export async function settleTheRest(walk: Walk, job: Job): Promise<void> {
  const { items } = await walk.lead.get<{ items: Obligation[] }>(`/jobs/${job.jobId}/obligations`);
  for (const obligation of items.filter(({ state }) => state !== 'discharged')) {
    await walk.lead.post(`/obligations/${obligation.id}/discharge`, {
      reason: 'Part renewed, its new measure is on the maker’s slip',
    });
    say(`discharged by ${walk.lead.name}: ${obligation.words}`);
  }
}

/** Quotes from findings and demands, and records the owner's yes. */
export async function quote(walk: Walk, job: Job): Promise<void> {
  heading('Quote, and the owner’s yes');
  const draft = await walk.writer.get<QuoteDraft>(`/jobs/${job.jobId}/quote-draft`);
  const { currency } = draft.total;
  const lines = draft.lines.map(({ kind, words, quantity, each, partId }) => ({
    kind,
    words,
    quantity,
    each,
    ...(partId === null ? {} : { partId }),
  }));
  const sent = await walk.writer.post<Quote>(`/jobs/${job.jobId}/quotes`, {
    lines: [
      ...lines,
      {
        kind: 'labour',
        words: 'Strip, measure, assemble, prove: hours',
        quantity: 9,
        each: { minor: '7200', currency },
      },
      { kind: 'outside work', words: 'Replate the bore', quantity: 1, each: { minor: '23500', currency } },
    ],
  });
  const { items } = await walk.writer.get<{ items: Quote[] }>(`/jobs/${job.jobId}/quotes`);
  const newest = items.find(({ id }) => id === sent.id) ?? items[0];
  if (newest === undefined) throw new Error('The quote was sent but is not there.');
  say(`quote ${newest.number}: ${newest.lines.length} lines, ${newest.total.minor} ${currency} in minor units`);
  await walk.writer.post(`/quotes/${newest.id}/answer`, {
    yes: true,
    sum: newest.total,
    saidBy: 'Ingrid Falk',
    how: 'by telephone',
  });
  say('Ingrid Falk said yes by telephone');
  const again = await refusalOf(
    walk.writer.post(`/quotes/${newest.id}/answer`, { yes: false, saidBy: 'Ingrid Falk', how: 'in writing' }),
  );
  refused(again.detail);
}
