import type { Feature } from '#platform/http/feature.ts';
import { liveStream } from '#platform/live/stream.ts';
import { assemblyFeature } from './assembly/routes.ts';
import { counterFeature } from './counter/routes.ts';
import { custodyFeature } from './custody/routes.ts';
import { floorFeature } from './floor/routes.ts';
import { intakeFeature } from './intake/routes.ts';
import { signInFeature } from './sign-in/routes.ts';
import { specsFeature } from './specs/routes.ts';

/** Everything served under /api: one line a feature. */
export const features: readonly Feature[] = [
  signInFeature,
  intakeFeature,
  counterFeature,
  floorFeature,
  custodyFeature,
  specsFeature,
  assemblyFeature,
  liveStream,
];
