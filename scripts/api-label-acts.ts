import type { BadgeIssued, Badges, LabelChoices } from '#contracts/labels.ts';
import type { Person } from './walk/client.ts';

/** Labels of each kind drawn, one scanned; a badge issued, tried, and taken back. */
export async function labelActs(base: string, { lead, clerk }: { lead: Person; clerk: Person }): Promise<void> {
  await clerk.get('/label-stocks');
  const firstOf = async (kind: string) => {
    const { items } = await clerk.get<LabelChoices>(`/labels?kind=${kind}`);
    return { kind, id: items[0]?.id };
  };
  const labels = [await firstOf('tray'), await firstOf('bin')];
  const drawn = await clerk.post<{ items: { code: string }[] }>('/labels/drawings', { labels, stock: '65-on-a4' });
  await clerk.post('/scans', { text: drawn.items[1]?.code });
  await clerk.post('/scans', { text: drawn.items[0]?.code });
  // Whoever's badge is taken back is signed out, so it is one who has nothing else to do here.
  const { people } = await lead.get<Badges>('/badges');
  const bearer = people.find(({ name }) => name === 'Tomasz Rudd');
  const badge = await lead.post<BadgeIssued>('/badges', { personId: bearer?.id });
  await fetch(`${base}/api/session/badge`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code: badge.code }),
  });
  await lead.put('/badge-rule', { alone: false }, { ifMatch: '"1"' });
  await lead.post(`/badges/${badge.id}/revoke`, { reason: 'only to show how' });
}
