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
}
