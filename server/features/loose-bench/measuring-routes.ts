import {
  LooseGaugeStudy,
  LooseGaugeStudyFound,
  LooseMonteCarlo,
  LooseMonteCarloFound,
  LoosePredictions,
  LoosePredictionsFound,
  LooseWear,
  LooseWearFound,
} from '#contracts/loose-measuring.ts';
import type { Feature } from '#platform/http/feature.ts';
import { looseGaugeStudy, looseWear } from './measuring.ts';
import { looseMonteCarlo } from './monte-carlo.ts';
import { loosePredictions } from './predictions.ts';
import { looseConfig, looseSchema } from './route.ts';

export const looseMeasuringFeature: Feature = async (app) => {
  app.post(
    '/bench/gauge-study',
    {
      config: looseConfig,
      schema: looseSchema({
        summary: 'Study a gauge by analysis of variance',
        description:
          'Parts × people × trials, each combination read once. The interaction of parts and people is pooled with the repeatability where it is not significant. Study variation is six standard deviations. One person: repeatability alone. The average-and-range method’s figures stand beside it; nothing rests on them.',
        body: LooseGaugeStudy,
        found: LooseGaugeStudyFound,
      }),
    },
    async (request) => looseGaugeStudy(request.body),
  );

  app.post(
    '/bench/monte-carlo',
    {
      // A thousand times the work of the others.
      config: { ...looseConfig, rateLimit: { max: 20, timeWindow: '1 minute' } },
      schema: looseSchema({
        summary: 'Draw a dimension many times, by a seed that is kept',
        description:
          'JCGM 101: resolution and permissible error rectangular, scatter normal or Student’s t by its degrees of freedom, feeler intervals uniform; what one setting of a gauge shares is drawn once for it. Verdicts rest on the closed form, which is answered beside it.',
        body: LooseMonteCarlo,
        found: LooseMonteCarloFound,
      }),
    },
    async (request) => looseMonteCarlo(request.body),
  );

  app.post(
    '/bench/wear',
    {
      config: looseConfig,
      schema: looseSchema({
        summary: 'Wear of one part over its hours, and hours left to a limit',
        description:
          'A straight line with its prediction interval, never from fewer than three points; beside it where its rate sits among the engines of its family.',
        body: LooseWear,
        found: LooseWearFound,
      }),
    },
    async (request) => looseWear(request.body),
  );

  app.post(
    '/bench/predictions',
    {
      config: looseConfig,
      schema: looseSchema({
        summary: 'Foresee what boring, another piston or resurfacing would come to',
        description:
          'Ring gap after the bore is opened (π times the growth), clearance with each piston at hand and the bore it asks for, compression ratio after a face is taken down, metal left.',
        body: LoosePredictions,
        found: LoosePredictionsFound,
      }),
    },
    async (request) => loosePredictions(request.body),
  );
};
