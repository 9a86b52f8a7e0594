import type { OutsideInShop, PeriodInShop, ShiftEnd } from '#contracts/custody-past.ts';
import type { Person } from './walk/client.ts';

/** Who held what, how long at which bench, what is at a vendor, and the end of a shift signed. */
export async function custodyActs(lead: Person, somebody: Person): Promise<void> {
  const held = await somebody.get<{ items: readonly PeriodInShop[] }>('/custody');
  const jobId = held.items.find(({ subject }) => subject.kind === 'engine')?.job?.id;
  await somebody.get('/custody/periods?from=2026-01-01T00:00:00Z');
  await somebody.get(`/jobs/${jobId}/bench-times`);
  await somebody.get(`/jobs/${jobId}/to-hand-over`);
  await somebody.get('/custody/rule');
  await lead.post('/custody/rule', { answerMinutes: 30 });
  const away = await somebody.get<OutsideInShop>('/outside-work');
  await somebody.get(`/outside-work/${away.items[0]?.id}/slip`);
  const { mark } = await lead.get<ShiftEnd>('/custody/shift-end');
  const report = await lead.post<{ id: string }>('/custody/shift-reports', {
    mark,
    note: 'The measuring bench goes on till eight',
  });
  await somebody.get('/custody/shift-reports');
  await somebody.get(`/custody/shift-reports/${report.id}`);
}
