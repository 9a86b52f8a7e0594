import { cleanAndOiled, cleanFaces, coolantDrainIn, drainPlugIn, kitLaidOut, sparkPlugIn } from './both-strokes.ts';
import { goingBack, notRings, ringPieces } from './goes-back.ts';
import {
  asBuilt,
  caution,
  circlipsFly,
  manualDecides,
  type ProcedureData,
  pulledThrough,
  type StepData,
  section,
  step,
} from './procedure.ts';
import { twoStrokeStrip } from './two-stroke-strip.ts';

const assembleSteps: readonly StepData[] = [
  ...section('Before a part goes in', [
    kitLaidOut,
    cleanFaces,
    cleanAndOiled('Ports, transfers and water ways blown through; port edges felt for a burr.'),
    step(
      'Crank flushed',
      'Rag out, case mouth turned down; crank and big end flushed with clean fuel mixture and oiled; turned by hand until it runs quietly. Then a clean rag in the old one’s place.',
      {
        cautions: [
          caution('fuel and solvent vapour', 'Outdoors or under the fan, no flame, gloves; a tray under it.'),
          pulledThrough,
        ],
      },
    ),
  ]),
  ...section('Piston and cylinder', [
    step(
      'Ring gaps in this bore',
      'Each ring squared with the piston crown in the bore, clear of the ports, its gap taken with blades.',
      {
        readings: asBuilt('ring-gap-top', 'ring-gap-second'),
        tray: 'piston',
        cautions: [
          caution('damage', 'Too tight a gap seizes the engine: a ring is dressed at its end faces only, or changed.'),
        ],
      },
    ),
    step('Rings on', 'Marks towards the crown, each ring’s ends on its peg and free to close.', {
      tray: 'piston',
      cautions: [caution('damage', 'A ring that rides on its peg breaks in the first port.')],
      photo: 'Ring ends on both pegs',
    }),
    step(
      'Piston on',
      'Arrow to the exhaust. Small-end bearing oiled, all needles there; new circlips with the opening up or down, never to the side. The second person turns each circlip in its groove and feels it all round.',
      {
        cautions: circlipsFly,
        secondPerson: true,
        tray: 'piston',
        photo: 'Both circlips in their grooves',
      },
    ),
    step(
      'Cylinder on',
      'New base gasket of the measured thickness, both dowels in. Ring ends on their pegs, rings pressed in by hand; never turn the cylinder on the rings. Then the rag out of the case mouth, whole, and off the tally.',
      {
        fastenerSet: 'base-nuts',
        cautions: [caution('cuts', 'Port edges, and fingers between cylinder and case.')],
      },
    ),
  ]),
  ...section('Head and intake', [
    step(
      'Head on',
      'New o-rings greased in their grooves, squish looked at with solder where the manual asks; all of a stage before the next.',
      {
        fastenerSet: 'head-nuts',
        cautions: [
          caution(
            'damage',
            'Look down the bore with a lamp first: nothing in it. Threads wet or dry as the sheet says: a figure for the one is wrong for the other.',
          ),
        ],
      },
    ),
    step(
      'Reed block in, turned over',
      'Rag out of the port and off the tally, new gasket, screws criss-cross. Two full turns of the crank by hand: it must breathe and catch nowhere.',
      {
        fastenerSet: 'reed-screws',
        cautions: [pulledThrough],
      },
    ),
    sparkPlugIn,
    step(
      'Carburettor and pipe on',
      'Boot over its bead, its clamps by feel until it turns no more; cable free at both bars; plug out of the exhaust port and off the tally, new o-rings at the flange, springs on.',
      {
        cautions: [
          caution('springs under load', 'Pipe springs fly: a hook with a handle, eye protection.'),
          caution(
            'fuel and solvent vapour',
            'Fuel on last; a rag under the bowl, no spark until it has been looked at.',
          ),
        ],
      },
    ),
    coolantDrainIn,
    {
      ...drainPlugIn,
      words: `${drainPlugIn.words} Every piece of the tally has its place before the engine is closed.`,
    },
  ]),
];

export const twoStrokeAssemble: ProcedureData = {
  code: 'O125-BUILD',
  name: 'Assemble the top end, Ostrel 125 T',
  kind: 'assemble',
  note: manualDecides,
  steps: goingBack(assembleSteps, twoStrokeStrip, {
    'Rings on': [['Piston off', ringPieces]],
    'Piston on': [['Piston off', notRings]],
    'Cylinder on': [['Cylinder off']],
    'Head on': [['Head off']],
    'Spark plug in': [['Spark plug out']],
    'Reed block in, turned over': [['Reed block out']],
    'Carburettor and pipe on': [['Carburettor off'], ['Pipe off']],
    'Coolant drain screw in': [['Coolant out']],
    'Drain plug in': [['Drain']],
  }),
};
