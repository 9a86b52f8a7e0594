import type { Person } from './walk/client.ts';

const mm = (value: string) => ({ value, unit: 'mm' });

/** The life of an instrument: registered, certified, studied by two people on two parts, taken out of use. */
export async function gaugeActs(lead: Person, technician: Person): Promise<void> {
  const { id } = await lead.post<{ id: string }>('/instruments', {
    code: 'MIC-9',
    name: 'Micrometer 75 to 100',
    instrumentKind: 'micrometer',
    kind: 'length',
    unit: 'mm',
    decimals: 3,
    range: { low: mm('75'), high: mm('100') },
    resolution: mm('0.001'),
    mpe: mm('0.003'),
  });
  await lead.post(`/instruments/${id}/calibrations`, {
    calibratedOn: '2026-11-02',
    dueOn: '2027-11-02',
    certificate: 'QL-2026-118',
  });
  const personIds = [lead.id, technician.id];
  const study = await technician.post<{ id: string }>('/gauge-studies', {
    instrumentId: id,
    name: 'Micrometer on two pistons',
    parts: 2,
    trials: 2,
    personIds,
    tolerance: mm('0.040'),
  });
  const figures = ['87.958', '87.959', '87.958', '87.957', '87.962', '87.962', '87.963', '87.961'];
  await technician.post(`/gauge-studies/${study.id}/readings`, {
    readings: figures.map((figure, index) => ({
      part: index < 4 ? 1 : 2,
      personId: personIds[index % 2],
      trial: index % 4 < 2 ? 1 : 2,
      value: mm(figure),
    })),
  });
  await technician.get(`/gauge-studies/${study.id}`);
  await technician.get('/gauge-studies');
  await lead.post(`/gauge-studies/${study.id}/close`, { adopt: true });
  await lead.post(`/instruments/${id}/retire`, { reason: 'Dropped, anvil chipped' });
}
