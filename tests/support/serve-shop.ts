// A server of a test's shop as an operating-system process of its own:
// `node --import tsx serve-shop.ts DATABASE_URL [rounds]`, with the rounds of stores where they are asked for.
import type { AddressInfo } from 'node:net';
import { startStoresClock } from '#features/stores/reservations/clock.ts';
import { openDatabase } from '#platform/database/client.ts';
import { buildApp } from '../../server/app.ts';
import { testConfig } from './test-config.ts';

const [url = '', rounds] = process.argv.slice(2);
const db = openDatabase(url);
const app = await buildApp({ config: testConfig(url), db });
await app.listen({ port: 0, host: '127.0.0.1' });
const clock =
  rounds === 'rounds'
    ? await startStoresClock(db.sql, (error) => console.error('a round broke off', error))
    : undefined;
process.send?.((app.server.address() as AddressInfo).port);
// The test lets go of its end, or is gone: nothing is left running.
process.once('disconnect', () => {
  void app
    .close()
    .then(() => clock?.close())
    .then(() => db.close());
});
