import type { Feature } from '#platform/http/feature.ts';
import { benchRoutes } from './bench/routes.ts';
import { obligationsRoutes } from './obligations/routes.ts';
import { partsRoutes } from './parts/routes.ts';
import { readingsRoutes } from './readings/routes.ts';
import { revisionsRoutes } from './revisions/routes.ts';
import { simulationsRoutes } from './simulations/routes.ts';

/** Readings, what they amount to, and what that obliges somebody to do. */
export const findingsFeature: Feature = async (app, platform) => {
  for (const routes of [
    readingsRoutes,
    benchRoutes,
    obligationsRoutes,
    partsRoutes,
    revisionsRoutes,
    simulationsRoutes,
  ]) {
    await app.register(routes, platform);
  }
};
