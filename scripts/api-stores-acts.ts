import type { CountSheet } from '#contracts/counts.ts';
import type { Person } from './walk/client.ts';

/** Acts of stores that the walk has no occasion for: books by CSV, bins. */
export async function storesActs(clerk: Person, lead: Person): Promise<void> {
  await clerk.post('/parts/import', {}, { csv: 'number,name,unit,price\r\nQL-9001,Oil 10W-40,ml,0.01\r\n' });
  for (const [what, csv] of [
    ['parts', 'number,name,reorder_point\r\nQL-9001,Oil 10W-40,4000\r\n'],
    ['bins', 'code,walk_order,closed\r\nE-02,220,no\r\n'],
    ['kits', `family,kit,part,quantity\r\n${await familyCode(clerk)},Oil change,QL-9001,1400\r\n`],
  ] as const) {
    await clerk.post(`/${what}/import/check`, {}, { csv });
    if (what !== 'parts') await clerk.post(`/${what}/import`, {}, { csv });
  }
  const bin = await clerk.post<{ id: string; code: string }>('/bins', { code: 'E-01' });
  const added = await clerk.post<{ id: string }>('/parts', {
    number: 'QL-9003',
    name: 'Crush washer 16',
    oneTime: true,
  });
  await clerk.post(`/parts/${added.id}/change`, { reorderPoint: 20 });
  const opening = { csv: `part,bin,lot,quantity,value\r\nQL-9001,${bin.code},B-77,4000,40.00\r\n` };
  await clerk.post('/stock-opening/check', {}, opening);
  await clerk.post('/stock-opening', {}, opening);
  await clerk.post(`/bins/${bin.id}/change`, { walkOrder: 900 });
  for (const path of ['/bins/changes/check', '/bins/changes'])
    await clerk.post(path, { binIds: [bin.id], walk: { from: 910, step: 10 } });
  await promiseActs(clerk, bin.id);
  await lead.post('/stores/buying-rules', {
    servicePercent: 97.5,
    orderCost: { minor: '1800', currency: 'EUR' },
    holdingPercent: 22,
    leadDays: 12,
    historyDays: 365,
    reason: 'two jobs stood still in spring',
  });
  await clerk.get('/stores/buying-rules');
  await lead.post('/stores/hold-rule', { days: 21 });
  await supplyActs(clerk, bin.id);
  await countingActs(clerk, lead, bin.id);
}

async function familyCode(clerk: Person): Promise<string> {
  const { items } = await clerk.get<{ items: { code: string }[] }>('/families');
  const [family] = items;
  if (family === undefined) throw new Error('a family is wanted');
  return family.code;
}

/** What is promised: to whom, when all of it can be here, and somebody's decision to give it to another job. */
async function promiseActs(clerk: Person, binId: string): Promise<void> {
  const { jobs } = await clerk.get<{ jobs: { job: { id: string } }[] }>('/stores/board');
  const [from, to] = jobs.map(({ job }) => job.id);
  const part = (await clerk.get<{ items: { id: string }[] }>('/parts?search=QL-9001')).items[0];
  if (from === undefined || to === undefined || part === undefined) throw new Error('two jobs and a part are wanted');
  const wish = { lines: [{ partId: part.id, quantity: 3, words: 'for the oil change' }] };
  type Lines = { lines: { id: string; part: { id: string } }[] };
  const lineOf = ({ lines }: Lines) => lines.find((line) => line.part.id === part.id)?.id;
  const line = lineOf(await clerk.post<Lines>(`/jobs/${from}/demands`, wish));
  await clerk.post(`/jobs/${to}/demands`, wish);
  await clerk.get(`/jobs/${from}/parts-ready`);
  await clerk.get(`/parts/${part.id}/promise?on=2026-12-10&quantity=2`);
  const usedCondition = 'can opened, seal whole';
  const { lotId } = await clerk.post<{ lotId: string }>('/receipts', {
    partId: part.id,
    binId,
    quantity: 2,
    usedCondition,
  });
  await clerk.post(`/lots/${lotId}/marks`, { grade: 'W', reason: 'the mark stands on the can' });
  await clerk.post(`/demand-lines/${line}/lot-rule`, {
    rule: 'grade',
    grade: 'W',
    reason: 'the engine runs in winter',
  });
  await clerk.get(`/demand-lines/${line}/lots`);
  await clerk.post(`/demand-lines/${line}/reserve-of-lot`, { lotId, quantity: 2 });
  await insteadActs(clerk, part.id);
  await clerk.post(`/demand-lines/${line}/reassign`, { toJobId: to, quantity: 1, reason: 'it is needed sooner there' });
}

/** A part that another replaces, and one that will do in its place; both taken back. */
async function insteadActs(clerk: Person, partId: string): Promise<void> {
  await clerk.post('/parts/import', {}, { csv: 'number,name,unit\r\nQL-9002,Oil 10W-40 new can,ml\r\n' });
  const other = (await clerk.get<{ items: { id: string }[] }>('/parts?search=QL-9002')).items[0];
  if (other === undefined) throw new Error('the part that was brought in is not there');
  await clerk.post(`/parts/${partId}/supersession`, { byPartId: other.id, oldStock: 'use up' });
  await clerk.post(`/parts/${partId}/alternatives`, { partId: other.id, condition: 'in summer', bothWays: true });
  await clerk.get(`/parts/${partId}/instead`);
  await clerk.post(`/parts/${partId}/alternatives/withdraw`, { partId: other.id, reason: 'it foams' });
  await clerk.post(`/parts/${partId}/supersession/withdraw`, { reason: 'the maker took the notice back' });
}

/** Buying: from what to buy over an order, its dates and a delivery to what goes back. */
async function supplyActs(clerk: Person, binId: string): Promise<void> {
  const { items } = await clerk.get<{ items: { id: string }[] }>('/vendors');
  const vendorId = items[0]?.id;
  const parts = await clerk.get<{ items: { id: string }[] }>('/parts?search=QL-9001');
  const partId = parts.items[0]?.id;
  const price = { minor: '2', currency: 'EUR' };
  await clerk.post('/vendor-prices', { vendorId, partId, price, validFrom: '2026-01-01', theirNumber: 'OIL-10' });
  const prices = { csv: 'their_number,our_number,price,from\r\nOIL-10,QL-9001,0.03,2026-06-01\r\n' };
  await clerk.post(`/vendors/${vendorId}/price-list/check`, {}, prices);
  await clerk.post(`/vendors/${vendorId}/price-list`, {}, prices);
  for (const path of ['/parts/changes/check', '/parts/changes'])
    await clerk.post(path, { partIds: [partId], reorderPoint: 4500, vendorId });
  await clerk.get('/stores/to-buy');
  await clerk.get('/stores/short');
  await clerk.get('/stores/pick-walk');
  await clerk.get('/stores/bins');
  await clerk.get(`/parts/${partId}/supply`);
  const order = await clerk.post<{ id: string; lines: { id: string }[] }>('/purchase-orders', {
    vendorId,
    words: 'Deliver before ten',
    lines: [{ partId, quantity: 1000 }],
  });
  await clerk.post(`/purchase-orders/${order.id}/marks`, { mark: 'sent', words: 'by letter' });
  const lineId = order.lines[0]?.id;
  await clerk.post(`/purchase-lines/${lineId}/dates`, { promisedOn: '2026-12-04', words: 'waits for the tanker' });
  for (const step of ['/check', '']) {
    await clerk.post(`/purchase-lines/changes${step}`, {
      lineIds: [lineId],
      promisedOn: '2026-12-07',
      words: 'the tanker is late',
    });
    const days = { csv: `line,promised_on,said\r\n${lineId},2026-12-08,by the first lorry\r\n` };
    await clerk.post(`/purchase-lines/days/import${step}`, {}, days);
  }
  await clerk.get(`/stores/expected?vendorId=${vendorId}`);
  await clerk.post('/deliveries', {
    note: 'DN 4471',
    lines: [{ purchaseLineId: lineId, binId, quantity: 600, lotCode: 'B-78' }],
    freight: { minor: '450', currency: 'EUR' },
  });
  await clerk.post(`/purchase-lines/${lineId}/faults`, { kind: 'called off', quantity: 400, words: 'enough for now' });
  await clerk.get(`/purchase-orders/${order.id}`);
  await clerk.get('/purchase-orders?limit=5');
  const cores = await clerk.get<{ items: { id: string; sentAt: string | null }[] }>('/cores');
  const core = cores.items.find(({ sentAt }) => sentAt === null);
  if (core === undefined) throw new Error('a core that is owed is wanted');
  await clerk.post(`/cores/${core.id}/marks`, { mark: 'sent' });
  for (const step of ['/check', ''])
    await clerk.post(`/cores/changes${step}`, { coreIds: [core.id], mark: 'credited' });
}

/** A bin counted blind, off by some, counted again and decided; another given up. */
async function countingActs(clerk: Person, lead: Person, binId: string): Promise<void> {
  await lead.post('/count-rules', { class: 'C', tolerancePieces: 0, tolerancePercent: '0.5', everyDays: 182 });
  for (const step of ['/check', ''])
    await lead.post(`/count-rules/changes${step}`, { classes: ['A', 'B'], tolerancePercent: '0.2' });
  await clerk.get('/count-rules');
  await clerk.get('/count-schedule?limit=5');
  const sheet = await clerk.post<CountSheet>('/count-sheets', { binIds: [binId] });
  const path = `/count-sheets/${sheet.id}`;
  const { items } = await clerk.get<{ items: { id: string }[] }>('/parts?shims=true&limit=1');
  const found = await clerk.post<typeof sheet>(`${path}/found`, {
    binId,
    partId: items[0]?.id,
    lotCode: '5512',
    counted: 2,
  });
  const rows = sheet.lines.map(({ id, bin, part }) => `${bin.code},${part.number},581,${id}\r\n`);
  const filled = { csv: `bin,part,counted,line\r\n${rows.join('')}` };
  for (const step of ['/check', '']) await clerk.post(`${path}/counts/import${step}`, {}, filled);
  for (const line of sheet.lines) await clerk.post(`${path}/counts`, { lineId: line.id, counted: 580 });
  await clerk.post(`${path}/hand-in`, { round: 1 });
  await lead.post(`${path}/recount`, {});
  for (const line of found.lines) await lead.post(`${path}/counts`, { lineId: line.id, counted: 581 });
  await lead.post(`${path}/hand-in`, { round: 2 });
  await lead.post(`${path}/decisions`, {
    lineId: sheet.lines[0]?.id,
    decision: 'adjust',
    reason: 'a can stood on the bench',
  });
  await clerk.get(path);
  await clerk.get('/count-sheets?limit=5');
  await clerk.post(`${path}/give-up`, { reason: 'the rest is cleared out' });
  await clerk.get('/count-accuracy');
}
