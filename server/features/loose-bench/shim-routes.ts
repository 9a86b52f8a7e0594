import { LooseShims, LooseShimsFound } from '#contracts/loose-shims.ts';
import type { Feature } from '#platform/http/feature.ts';
import { looseConfig as config, looseSchema as schemaOf } from './route.ts';
import { looseShims } from './shims.ts';

export const looseShimsFeature: Feature = async (app) => {
  app.post(
    '/bench/shims',
    {
      config,
      schema: schemaOf({
        summary: 'Choose the shims of a whole head, or of several that draw on the same bins',
        description:
          'One shim for each valve, out of those in the engine (one may move to another valve of its head), those in the bins and those that could be bought. The aims, in this order: most valves guaranteed in range over the whole lash interval and the shims’ own uncertainty; most possibly in range; most with the middle of the lash in range; fewest bought; fewest from the bins; least Σ|middle of the lash interval − wanted|; looser rather than tighter; most shims left where they are; the valves in their order. The answer is optimal and there is only one. A valve with a screw is given a turn instead.\n\nMeasure the lash again after fitting; the maker’s manual has the last word.',
        body: LooseShims,
        found: LooseShimsFound,
      }),
    },
    async (request) => looseShims(request.body),
  );
};
