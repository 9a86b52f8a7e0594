import { cleanAndOiled, cleanFaces, kitLaidOut } from './both-strokes.ts';
import { lashOfValves } from './four-stroke-strip.ts';
import { valvesIn } from './four-stroke-valves.ts';
import {
  asBuilt,
  caution,
  type FourStrokeWork,
  manualDecides,
  type ProcedureData,
  pulledThrough,
  type StepData,
  section,
  step,
} from './procedure.ts';

const ready: readonly StepData[] = [
  kitLaidOut,
  cleanFaces,
  cleanAndOiled('Every oilway of head, cylinder and cam caps blown through and seen to be open.'),
];

const cylinderAndPiston: readonly StepData[] = [
  step(
    'Ring gaps in this bore',
    'Each ring squared with the piston crown in the bore it will run in, its gap taken with blades.',
    {
      readings: asBuilt('ring-gap-top', 'ring-gap-second'),
      tray: 'piston',
      cautions: [
        caution('damage', 'Too tight a gap seizes the engine: a ring is dressed at its end faces only, or changed.'),
      ],
    },
  ),
  step(
    'Rings on',
    'Spacer first, its ends butted and not overlapped, then both rails, then second and top ring, marks towards the crown. Opened no further than they must be. Gaps turned to the places of the sheet.',
    {
      tray: 'piston',
      cautions: [
        caution('cuts', 'Rails cut like blades: they are walked into the groove, not drawn through the fingers.'),
      ],
      photo: 'The spacer’s ends, butted',
    },
  ),
  step(
    'Piston on',
    'Arrow to the exhaust. Pin oiled, new circlips with the opening away from the notch, never over-bent. The second person turns each circlip in its groove and feels it all round.',
    {
      cautions: [
        caution('springs under load', 'Circlips fly: a thumb over it, and the rag closes the case.'),
        caution('eyes', 'Eye protection, for whoever looks on too.'),
      ],
      secondPerson: true,
      tray: 'piston',
      photo: 'Both circlips in their grooves',
    },
  ),
  step(
    'Cylinder on',
    'New base gasket dry or as the manual says, both dowels in. Bore and rings oiled; rings pressed in by hand or clamp, never forced. Then the rag out of the case mouth, whole, and off the tally.',
    {
      cautions: [
        caution('cuts', 'Fingers between cylinder and case are under its whole weight: chain pulled up with a hook.'),
      ],
    },
  ),
];

const headAndCams = (adjuster: FourStrokeWork['adjuster']): readonly StepData[] => [
  step(
    'Head on',
    'A lamp down bore and tunnel: no rag, no chip, nothing that fell. A rag in the tunnel comes out and off the tally. New gasket the right way up, both dowels in, chain up. Threads wet or dry as the sheet says; all of a stage before the next, in its order.',
    {
      fastenerSet: 'head-bolts',
      cautions: [
        caution('lifting', 'Straight down over the dowels with two hands: a dropped head bruises its face.'),
        caution(
          'damage',
          'A figure for dry threads on oiled ones overpulls the bolt, the other way round the gasket leaks. Oil at the foot of a blind hole cracks the casting: blow it out, eyes covered.',
        ),
      ],
    },
  ),
  step(
    'Oil feed and earth wire on',
    'A new washer on both faces of each banjo; the pipe stands free of the cylinder.',
    {},
  ),
  step('Coolant hose on', 'New hose if the old one is hard or cut; clamp behind the bead.', {
    onlyIf: [{ fact: 'cooling', oneOf: ['water'] }],
  }),
  adjuster === 'shim'
    ? step(
        'Buckets and shims in',
        'Oiled, each back in the bore of its own valve, the chosen shim under it with its mark down.',
        {
          tray: 'valve train',
          cautions: [
            caution('damage', 'A shim lying askew breaks its bucket at the first start: press each and feel it turn.'),
          ],
        },
      )
    : step(
        'Rockers in',
        'Oiled, each back by its own valve, screws slackened right off so that no valve stands open.',
        {
          tray: 'valve train',
          cautions: [caution('springs under load', 'Never draw a rocker down with its shaft on an open valve.')],
        },
      ),
  step(
    'Cams in on their marks',
    'Crank at its mark, cams laid in with their marks level, half-rings and dowels in; caps by place and direction, criss-cross, all of a stage before the next. The second person reads all three marks aloud.',
    {
      cautions: [
        caution('damage', 'A cam out by one tooth bends valves.'),
        caution(
          'damage',
          'Sprocket bolts that were undone: threads free of oil, one drop of the thread locker the manual names. On an oily thread it holds nothing; what is too much creeps into the bearing.',
        ),
        caution('springs under load', 'The cams rise against the springs: pulled down evenly or a cap cracks.'),
      ],
      fastenerSet: 'cam-caps',
      secondPerson: true,
      tray: 'valve train',
      photo: 'Crank mark and both cam marks',
    },
  ),
  step(
    'Tensioner in, turned twice',
    'New gasket; tensioner released. Every timing pin and holder out, and off the tally. Two full turns of the crank by hand, slowly; stop at any resistance and look. Marks read once more.',
    {
      cautions: [
        pulledThrough,
        caution(
          'damage',
          'A pin left in, or a valve on the piston, is felt in the hand before it breaks: no starter, no long bar.',
        ),
        caution('springs under load', 'The tensioner snaps out when it is released: eye protection.'),
      ],
    },
  ),
  step(
    'Lash',
    adjuster === 'shim'
      ? 'Measured at each valve, shims chosen, changed, and measured once more as built.'
      : 'Set by the screws, nuts held while they are pulled up, then measured once more as built.',
    { readings: asBuilt(...lashOfValves), tray: 'valve train', cautions: [pulledThrough] },
  ),
];

const closing: readonly StepData[] = [
  step(
    'Cover on',
    'Rag out of the chain tunnel first. Cams flooded with oil. New gasket and seals, plug in by hand first; timing plugs with new o-rings.',
    {
      fastenerSet: 'cover-bolts',
    },
  ),
  step(
    'Exhaust and intake on',
    'Both plugs out of the ports and off the tally. New exhaust gasket; nuts evenly; boot over its bead, clamps turned so that they can be reached.',
    {
      cautions: [
        caution(
          'fuel and solvent vapour',
          'Fuel line on last, clamp tight, a rag under it; no spark until it has been looked at.',
        ),
      ],
    },
  ),
  step(
    'Drain plugs and filter in',
    'New washers, new filter with its spring side as the manual shows, cover o-ring oiled. Every piece of the tally has its place before the engine is closed.',
    {},
  ),
];

export const fourStrokeAssemble = (of: FourStrokeWork): ProcedureData => ({
  code: `${of.code}-BUILD`,
  name: `Assemble the top end, ${of.name}`,
  kind: 'assemble',
  note: manualDecides,
  steps: [
    ...section('Before a part goes in', ready),
    ...section('Piston and cylinder', cylinderAndPiston),
    ...section('Head and cams', [...valvesIn, ...headAndCams(of.adjuster)]),
    ...section('Closing', closing),
  ],
});
