import type { Person } from './walk/client.ts';

/** Acts of stores that the walk has no occasion for: books by CSV, bins. */
export async function storesActs(clerk: Person): Promise<void> {
  await clerk.post('/parts/import', {}, { csv: 'number,name,unit,price\r\nQL-9001,Oil 10W-40,ml,0.01\r\n' });
  const bin = await clerk.post<{ id: string; code: string }>('/bins', { code: 'E-01' });
  await clerk.post(
    '/stock-opening',
    {},
    { csv: `part,bin,lot,quantity,value\r\nQL-9001,${bin.code},B-77,4000,40.00\r\n` },
  );
  await clerk.post(`/bins/${bin.id}/change`, { walkOrder: 900 });
  await supplyActs(clerk, bin.id);
}

/** Buying: from what to buy over an order, its dates and a delivery to what goes back. */
async function supplyActs(clerk: Person, binId: string): Promise<void> {
  const { items } = await clerk.get<{ items: { id: string }[] }>('/vendors');
  const vendorId = items[0]?.id;
  const parts = await clerk.get<{ items: { id: string }[] }>('/parts?search=QL-9001');
  const partId = parts.items[0]?.id;
  const price = { minor: '2', currency: 'EUR' };
  await clerk.post('/vendor-prices', { vendorId, partId, price, validFrom: '2026-01-01', theirNumber: 'OIL-10' });
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
  if (core !== undefined) await clerk.post(`/cores/${core.id}/marks`, { mark: 'sent' });
}
