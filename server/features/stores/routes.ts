import type { Feature } from '#platform/http/feature.ts';
import { binRoutes } from './bins/routes.ts';
import { boardRoutes } from './board/routes.ts';
import { bookRoutes } from './books/routes.ts';
import { countingRoutes } from './counting/routes.ts';
import { demandRoutes } from './demands/routes.ts';
import { deskRoutes } from './desks/routes.ts';
import { insteadRoutes } from './instead/routes.ts';
import { issuingRoutes } from './issuing/routes.ts';
import { movementRoutes } from './movements/routes.ts';
import { partRoutes } from './parts/routes.ts';
import { priceListRoutes } from './price-lists/routes.ts';
import { promisingRoutes } from './promising/routes.ts';
import { receivingRoutes } from './receiving/routes.ts';
import { reservationRoutes } from './reservations/routes.ts';
import { deliveryRoutes } from './supply/delivery-routes.ts';
import { orderRoutes } from './supply/order-routes.ts';
import { supplyRoutes } from './supply/routes.ts';

/** Stores: what there is, what jobs want, what is promised, and every piece that moves. */
export const storesFeature: Feature = async (app, platform) => {
  await app.register(boardRoutes, platform);
  await app.register(partRoutes, platform);
  await app.register(insteadRoutes, platform);
  await app.register(bookRoutes, platform);
  await app.register(priceListRoutes, platform);
  await app.register(demandRoutes, platform);
  await app.register(reservationRoutes, platform);
  await app.register(promisingRoutes, platform);
  await app.register(issuingRoutes, platform);
  await app.register(movementRoutes, platform);
  await app.register(receivingRoutes, platform);
  await app.register(binRoutes, platform);
  await app.register(countingRoutes, platform);
  await app.register(supplyRoutes, platform);
  await app.register(orderRoutes, platform);
  await app.register(deliveryRoutes, platform);
  await app.register(deskRoutes, platform);
};
