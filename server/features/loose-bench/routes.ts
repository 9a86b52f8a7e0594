import {
  LooseFindings,
  LooseFindingsFound,
  LooseRingClock,
  LooseRingClockFound,
  LooseShim,
  LooseShimFound,
  LooseTorque,
  LooseTorqueFound,
} from '#contracts/loose-bench.ts';
import { SheetChecked, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import { torqueNotes } from '#domain/spec-sheet/torque-notes.ts';
import { pastUsualWords } from '#features/assembly/service.ts';
import type { Feature } from '#platform/http/feature.ts';
import { looseShim, looseTorque } from './assembly.ts';
import { looseFindings } from './findings.ts';
import { looseRingClock } from './rings.ts';
import { looseConfig as config, looseSchema as schemaOf } from './route.ts';

export const looseBenchFeature: Feature = async (app) => {
  app.post(
    '/bench/findings',
    {
      config,
      schema: schemaOf({
        summary: 'Evaluate readings against limits, with the whole uncertainty budget',
        description:
          'Dimensions, limits, instruments and readings all come in the body, so that a worked example of a handbook can be tried. What cannot be worked out is told under `refused`.\n\nu² = (resolution/(2√3))² + (MPE/√3)² + s²/n + u(master)² + thermal; what one gauge at one setting shares cancels in a difference. The guard band is 1.65 u (ISO 14253-1:2017), or Student’s t times u below 30 degrees of freedom.',
        body: LooseFindings,
        found: LooseFindingsFound,
      }),
    },
    async (request) => looseFindings(request.body),
  );

  app.post(
    '/bench/spec-sheet',
    {
      config,
      schema: schemaOf({
        summary: 'Check a spec sheet',
        description:
          'Units, figures, limits that cross, methods that name a missing dimension or go in circles, codes that are there twice: everything that would keep it from being drafted, each with its JSON pointer.',
        body: SpecSheetDocument,
        found: SheetChecked,
      }),
    },
    async (request) => {
      const checked = checkSheet(request.body);
      return {
        faults: checked.ok ? [] : [...checked.faults],
        notes: torqueNotes(request.body).map(({ pointer, set, stage, ...note }) => ({
          pointer,
          detail: `${set}: ${pastUsualWords(note, stage)}`,
        })),
      };
    },
  );

  app.post(
    '/bench/shim',
    {
      config,
      schema: schemaOf({
        summary: 'Choose the shim for one valve',
        description: 'new shim = fitted shim + measured lash − wanted lash, over the whole interval of the lash.',
        body: LooseShim,
        found: LooseShimFound,
      }),
    },
    async (request) => looseShim(request.body),
  );

  app.post(
    '/bench/ring-clock',
    {
      config,
      schema: schemaOf({
        summary: 'Check where ring gaps are turned to',
        description: 'Angles run clockwise from the arrow on the crown, seen from above.',
        body: LooseRingClock,
        found: LooseRingClockFound,
      }),
    },
    async (request) => looseRingClock(request.body),
  );

  app.post(
    '/bench/torque',
    {
      config,
      schema: schemaOf({
        summary: 'Hold a torque against the bolt; setting with an adapter; order of tightening',
        description:
          'For comparison only (T = K·d·F, K = 0.20): the maker’s figure and order always win. Setting = T·L/(L + E·cos θ).',
        body: LooseTorque,
        found: LooseTorqueFound,
      }),
    },
    async (request) => looseTorque(request.body),
  );
};
