import { LooseShells, LooseShellsFound } from '#contracts/loose-shells.ts';
import type { Feature } from '#platform/http/feature.ts';
import { looseConfig as config, looseSchema as schemaOf } from './route.ts';
import { looseShells } from './shells.ts';

export const looseShellsFeature: Feature = async (app) => {
  app.post(
    '/bench/bearing-shells',
    {
      config,
      schema: schemaOf({
        summary: 'Choose the grade of a plain bearing’s shells by the classes of journal and housing',
        description:
          'By the maker’s own table, by stamped marks or by what was measured. A diameter whose uncertainty reaches into two classes may be of either; where their grades differ none is chosen. Clearance = housing − journal − 2 × shell.\n\nThe maker’s table has the last word: gauge the clearance of what is fitted.',
        body: LooseShells,
        found: LooseShellsFound,
      }),
    },
    async (request) => looseShells(request.body),
  );
};
