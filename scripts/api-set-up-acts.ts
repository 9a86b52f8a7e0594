import type { Person } from './walk/client.ts';

/** What a lead sets up and gives up again, and a PIN that somebody changes. */
export async function setUpActs(lead: Person, somebody: Person): Promise<void> {
  const bay = await lead.post<{ id: string }>('/bays', {
    name: 'Cold rack',
    kind: 'rack',
    capacity: 2,
    grid: { column: 1, row: 40 },
  });
  await lead.amend(`/bays/${bay.id}`, { capacity: 3 });
  await lead.post(`/bays/${bay.id}/give-up`);
  const terminal = await lead.post<{ id: string }>('/terminals', { name: 'Yard', bayId: null, idleMinutes: 5 });
  await lead.amend(`/terminals/${terminal.id}`, { idleMinutes: null });
  await lead.post(`/terminals/${terminal.id}/give-up`);
  const vendor = await lead.post<{ id: string }>('/vendors', { name: 'Alder Crank Shop', trade: 'cranks' });
  await lead.amend(`/vendors/${vendor.id}`, { contact: 'mornings' });
  await lead.post(`/vendors/${vendor.id}/give-up`);
  for (const step of ['/check', ''])
    await lead.post(
      `/vendors/import${step}`,
      {},
      { csv: 'name,trade,contact\r\nNorth Quay Gaskets,gaskets,by letter\r\n' },
    );
  await lead.amend('/shop', { locale: 'en-GB' });
  const person = await lead.post<{ id: string }>('/people', {
    name: 'Runa Solheim',
    initials: 'RS',
    roles: ['technician'],
    pin: '730591',
  });
  await lead.amend(`/people/${person.id}`, { roles: ['technician', 'parts clerk'] });
  await lead.post(`/people/${person.id}/pin`, { pin: '860421' });
  await lead.post(`/people/${person.id}/leave`);
  await lead.post(`/people/${person.id}/come-back`);
  await lead.post(`/people/${person.id}/leave`);
  await lead.get('/people');
  await somebody.post('/session/pin', { pin: '4505', newPin: '4505' });
}
