import { LooseFasteners, LooseFastenersFound, LooseWrench, LooseWrenchFound } from '#contracts/loose-fasteners.ts';
import type { Feature } from '#platform/http/feature.ts';
import { looseFasteners, looseWrench } from './fasteners.ts';
import { looseConfig as config, looseSchema as schemaOf } from './route.ts';

export const looseFastenersFeature: Feature = async (app) => {
  app.post(
    '/bench/fasteners',
    {
      config,
      schema: schemaOf({
        summary: 'A fastener set: order, stages held against the bolt, and a log of pulls checked',
        description:
          'The order is the maker’s, or worked out: rings of positions from the middle outwards, within each the position that stands farthest, as an angle, from what is tight already. Each torque stage is held against T = K·d·F at K 0.20 and the proof load of ISO 898-1: a note above 75 %, a warning above 100 %; angles are never judged. In the log a missed, a repeated and an out-of-stage pull are told, and a torque more than 4 % or an angle more than 5° away.\n\nThe maker’s manual has the last word.',
        body: LooseFasteners,
        found: LooseFastenersFound,
      }),
    },
    async (request) => looseFasteners(request.body),
  );

  app.post(
    '/bench/wrench',
    {
      config,
      schema: schemaOf({
        summary: 'Which torque wrench to take, and what to set with an adapter on it',
        description:
          'Used from 20 to 100 % of the largest setting, within its calibration and at most 5 000 pulls after it unless its maker says else (ISO 6789-1, from memory); ±4 %, ±6 % up to 10 N·m. With an adapter: setting = T·L/(L + E·cos θ); at 90° nothing changes, turned back it rises.',
        body: LooseWrench,
        found: LooseWrenchFound,
      }),
    },
    async (request) => looseWrench(request.body),
  );
};
