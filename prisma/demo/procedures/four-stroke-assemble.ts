import { cleanAndOiled, cleanFaces, kitLaidOut } from './both-strokes.ts';
import { cylinderAndPistonOn } from './four-stroke-piston.ts';
import { fourStrokeStrip, lashOfValves } from './four-stroke-strip.ts';
import { valvesIn } from './four-stroke-valves.ts';
import { goingBack, notRings, ringPieces } from './goes-back.ts';
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
    { fastenerSet: 'oil-feed-bolts' },
  ),
  step(
    'Coolant hose on',
    'New hose if the old one is hard or cut; clamp behind the bead. Drain screw in, with a new washer.',
    {
      onlyIf: [{ fact: 'cooling', oneOf: ['water'] }],
    },
  ),
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
      fastenerSet: 'tensioner-bolts',
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
      fastenerSet: 'exhaust-nuts',
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

const steps = (of: FourStrokeWork): readonly StepData[] => [
  ...section('Before a part goes in', ready),
  ...section('Piston and cylinder', cylinderAndPistonOn),
  ...section('Head and cams', [...valvesIn, ...headAndCams(of.adjuster)]),
  ...section('Closing', closing),
];

const seat = { shim: ['Buckets and shims in', 'Buckets and shims out'], screw: ['Rockers in', 'Rockers out'] } as const;

export const fourStrokeAssemble = (of: FourStrokeWork): ProcedureData => {
  const [seatsIn, seatsOut] = seat[of.adjuster];
  return {
    code: `${of.code}-BUILD`,
    name: `Assemble the top end, ${of.name}`,
    kind: 'assemble',
    note: manualDecides,
    steps: goingBack(steps(of), fourStrokeStrip(of), {
      'Rings on': [['Piston off', ringPieces]],
      'Piston on': [['Piston off', notRings]],
      'Cylinder on': [['Cylinder off']],
      'Valves in': [['Valves out']],
      'Head on': [['Head off']],
      'Oil feed and earth wire on': [['Oil feed and earth wire off']],
      'Coolant hose on': [['Coolant hose off the head'], ['Coolant out']],
      [seatsIn]: [[seatsOut]],
      'Cams in on their marks': [['Cams out']],
      'Tensioner in, turned twice': [['Tensioner out, chain hung']],
      'Cover on': [['Valve cover off'], ['Top dead centre on compression']],
      'Exhaust and intake on': [['Exhaust and intake off']],
      'Drain plugs and filter in': [['Drain']],
    }),
  };
};
