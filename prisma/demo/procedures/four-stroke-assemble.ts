import { cleanAndOiled, cleanFaces, coolantDrainIn, drainPlugIn, kitLaidOut, sparkPlugIn } from './both-strokes.ts';
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
    'A lamp down bore and tunnel: no rag, no chip, nothing that fell. New gasket the right way up, both dowels in; rag out of the tunnel while the chain comes up, and back into its mouth above. Threads wet or dry as the sheet says; all of a stage before the next, in its order.',
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
    'A new washer on both faces of each banjo; the pipe stands free of the cylinder. The earth wire’s screw has no figure: until its toothed washer bites, since it holds a wire and seals nothing.',
    { fastenerSet: 'oil-feed-bolts' },
  ),
  step(
    'Coolant hose on',
    'New hose if the old one is hard or cut; clamp behind the bead, by feel: until the rubber begins to bulge, more cuts it.',
    {
      onlyIf: [{ fact: 'cooling', oneOf: ['water'] }],
    },
  ),
  coolantDrainIn,
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
        'Oiled, each back by its own valve, screws slackened right off so that no valve stands open. Their nuts stay loose until the lash is set.',
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
        pulledThrough,
        caution('damage', 'A cam out by one tooth bends valves.'),
        caution(
          'damage',
          'Sprocket bolts that were undone: to the manual’s figure, threads free of oil, one drop of the thread locker the manual names. On an oily thread it holds nothing; what is too much creeps into the bearing.',
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
    'New gasket; tensioner released. Rag out of the chain tunnel, every timing pin and holder out, and off the tally, before anything is turned. Two full turns of the crank by hand, slowly; stop at any resistance and look. Marks read once more.',
    {
      fastenerSet: 'tensioner-bolts',
      cautions: [
        pulledThrough,
        caution(
          'damage',
          'A rag left in winds itself into the chain. A pin left in, or a valve on the piston, is felt in the hand before it breaks: no starter, no long bar.',
        ),
        caution('springs under load', 'The tensioner snaps out when it is released: eye protection.'),
      ],
    },
  ),
  step(
    'Lash',
    adjuster === 'shim'
      ? 'Measured at each valve, shims chosen, changed, and measured once more as built.'
      : 'Set by the screws, each held while its nut is pulled to its figure, then measured once more as built: the nut takes the screw along.',
    {
      ...(adjuster === 'screw' ? { fastenerSet: 'adjuster-nuts' } : {}),
      readings: asBuilt(...lashOfValves),
      tray: 'valve train',
      cautions: [pulledThrough],
    },
  ),
];

const closing: readonly StepData[] = [
  step(
    'Cover on',
    'A lamp down the tunnel: nothing in it. Cams flooded with oil. New gasket and seals. Timing plugs with new o-rings, by feel until they sit: the o-ring seals, and a slot that is pulled shears.',
    { fastenerSet: 'cover-bolts' },
  ),
  sparkPlugIn,
  step(
    'Exhaust and intake on',
    'Both plugs out of the ports and off the tally. New exhaust gasket; nuts evenly; boot over its bead, clamps turned so that they can be reached and pulled by feel, until the boot turns no more.',
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
  drainPlugIn,
  step(
    'Filter in',
    'New filter with its spring side as the manual shows, cover o-ring oiled. Every piece of the tally has its place before the engine is closed.',
    {
      fastenerSet: 'filter-cover-bolts',
      cautions: [caution('damage', 'Both threads are aluminium: started by hand, pulled in turn, to their figure.')],
    },
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
      'Coolant hose on': [['Coolant hose off the head']],
      'Coolant drain screw in': [['Coolant out']],
      [seatsIn]: [[seatsOut]],
      'Cams in on their marks': [['Cams out']],
      'Tensioner in, turned twice': [['Tensioner out, chain hung']],
      'Cover on': [['Valve cover off'], ['Top dead centre on compression']],
      'Spark plug in': [['Spark plug out']],
      'Exhaust and intake on': [['Exhaust and intake off']],
      'Drain plug in': [['Drain']],
      'Filter in': [['Filter out']],
    }),
  };
};
