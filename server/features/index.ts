import type { Feature } from '#platform/http/feature.ts';
import { liveStream } from '#platform/live/stream.ts';
import { headShimsFeature } from './assembly/head-routes.ts';
import { assemblyFeature } from './assembly/routes.ts';
import { badgesFeature } from './badges/routes.ts';
import { contactsFeature } from './contacts/routes.ts';
import { counterFeature } from './counter/routes.ts';
import { custodyFeature } from './custody/routes.ts';
import { enginesFeature } from './engines/routes.ts';
import { findingsFeature } from './findings/routes.ts';
import { floorFeature } from './floor/routes.ts';
import { handBackFeature } from './hand-back/routes.ts';
import { instrumentsFeature } from './instruments/routes.ts';
import { intakeFeature } from './intake/routes.ts';
import { labelsFeature } from './labels/routes.ts';
import { looseBuildFeature } from './loose-bench/build-routes.ts';
import { looseFastenersFeature } from './loose-bench/fastener-routes.ts';
import { looseMeasuringFeature } from './loose-bench/measuring-routes.ts';
import { looseBenchFeature } from './loose-bench/routes.ts';
import { looseShellsFeature } from './loose-bench/shell-routes.ts';
import { looseShimsFeature } from './loose-bench/shim-routes.ts';
import { openingsFeature } from './openings/routes.ts';
import { peopleFeature } from './people/routes.ts';
import { photosFeature } from './photos/routes.ts';
import { proceduresFeature } from './procedures/routes.ts';
import { scansFeature } from './scans/routes.ts';
import { changingShop } from './shop/changing-routes.ts';
import { shopFeature } from './shop/routes.ts';
import { signInFeature } from './sign-in/routes.ts';
import { specsFeature } from './specs/routes.ts';
import { storesFeature } from './stores/routes.ts';
import { workedFiguresFeature } from './worked-figures/routes.ts';

/** Everything served under /api: one line a feature. */
export const features: readonly Feature[] = [
  signInFeature,
  badgesFeature,
  intakeFeature,
  counterFeature,
  shopFeature,
  changingShop,
  peopleFeature,
  instrumentsFeature,
  contactsFeature,
  floorFeature,
  enginesFeature,
  custodyFeature,
  openingsFeature,
  proceduresFeature,
  photosFeature,
  specsFeature,
  findingsFeature,
  looseBenchFeature,
  looseMeasuringFeature,
  looseBuildFeature,
  looseShellsFeature,
  looseShimsFeature,
  looseFastenersFeature,
  assemblyFeature,
  headShimsFeature,
  handBackFeature,
  workedFiguresFeature,
  storesFeature,
  labelsFeature,
  scansFeature,
  liveStream,
];
