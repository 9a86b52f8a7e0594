import { calculationBody, calculationFound } from '#contracts/build-arithmetic.ts';
import { formulas } from '#domain/build/calculations/formulas.ts';
import { type CalculationKind, calculationKinds } from '#domain/build/calculations/kinds.ts';
import type { Feature } from '#platform/http/feature.ts';
import { looseConfig as config, looseSchema as schemaOf } from './route.ts';
import { calculated } from './service.ts';

const summaries: Readonly<Record<CalculationKind, string>> = {
  displacement: 'Displacement from bore and stroke',
  'compression-ratio':
    'Compression ratio of one cylinder, also from where the intake closes; squish; chamber for a ratio',
  'bore-comparison': 'Oversizes and big bores side by side',
  'ring-gap': 'Ring gap by rule, and as a bigger bore will make it',
  'piston-motion': 'Piston position, speed and acceleration',
  'valve-to-piston': 'Valve-to-piston clearance over the whole turn, and lift at a degree',
  'cam-timing': 'Durations, lobe centres, separation and overlap from opening and closing points',
  'cam-points': 'Opening and closing points from durations and lobe centres',
  'port-timing': 'A two-stroke’s port timing from port heights',
  'port-heights': 'A two-stroke’s port heights from port timing',
  mixture: 'Oil for so much fuel, fuel for so much oil, or the ratio of both',
  coolant: 'Coolant to let out and pour in for a strength',
  'oil-level': 'Oil to add or take out for a level in a tube',
  'fill-by-weight': 'Volume of so much oil by weight, or weight by volume',
};

/** The arithmetic of a build: one operation a calculation, from the one list of them. */
export const looseBuildFeature: Feature = async (app) => {
  for (const kind of calculationKinds) {
    app.post(
      `/bench/${kind}`,
      {
        config,
        schema: schemaOf({
          summary: summaries[kind],
          description: `${formulas[kind].map((formula) => `- ${formula}`).join('\n')}\n\nThe maker’s manual has the last word.`,
          body: calculationBody(kind),
          found: calculationFound(kind),
        }),
      },
      async (request) => calculated(kind, request.body),
    );
  }
};
