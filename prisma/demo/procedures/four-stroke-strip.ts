import { boreSeen, covered, sparkPlugOut } from './both-strokes.ts';
import { fluids, inHand } from './four-stroke-before.ts';
import { camsOut } from './four-stroke-cams.ts';
import { valvesOut } from './four-stroke-valves.ts';
import {
  asReceived,
  caution,
  circlipsFly,
  type FourStrokeWork,
  manualDecides,
  type ProcedureData,
  piece,
  pulledThrough,
  type StepData,
  section,
  step,
  where,
} from './procedure.ts';

const topEnd = { question: 'depth', oneOf: ['top-end'] } as const;
export const lashOfValves = ['lash-in-l', 'lash-in-r', 'lash-ex-l', 'lash-ex-r'] as const;

const coverAndLash: readonly StepData[] = [
  sparkPlugOut('Its insulator tells the mixture: kept with its engine. Nothing falls into the open hole.'),
  step(
    'Valve cover off',
    'Cover bolts criss-cross, cover straight up, never levered at the face. From here the engine is open and every piece is tallied.',
    {
      fastenerSet: 'cover-bolts',
      pieces: [
        piece('Valve cover', 1, 'head', { layer: 'cover' }),
        piece('Cover bolt', 4, 'valve cover', { why: 'shouldered: they stop on the head, not on their seal' }),
        piece('Cover bolt seal', 4, 'under the cover bolts', { why: 'one a bolt, some stay in the cover' }),
        piece('Cover gasket', 1, 'valve cover', { oneTime: true }),
      ],
    },
  ),
  step(
    'Top dead centre on compression',
    'Timing plugs out, crank turned by hand in running direction until the mark stands in its window and the lobes of both cams point away from each other.',
    {
      cautions: [pulledThrough],
      photo: 'Crank mark in its window, and both cam marks',
      pieces: [
        piece('Timing plug', 2, 'left cover', { why: 'one over the crank bolt, one over the window' }),
        piece('Timing plug o-ring', 2, 'timing plugs', { oneTime: true, why: 'one a plug' }),
      ],
    },
  ),
  step('Measure the lash', 'Cold, before the cams come out: once they are out nobody can tell what it was.', {
    cautions: [pulledThrough],
    readings: asReceived(...lashOfValves),
    tray: 'valve train',
  }),
];

const headOff: readonly StepData[] = [
  step('Oil feed and earth wire off', 'Banjo bolts out over a rag, both washers of each with it; feed pipe bagged.', {
    fastenerSet: 'oil-feed-bolts',
    cautions: [caution('used oil and coolant', 'Oil runs out of the pipe: catch it.')],
    pieces: [
      piece('Oil feed banjo bolt', 2, 'head and case', { why: 'drilled: a plain bolt shuts the oil off' }),
      piece('Oil feed washer', 4, 'banjo bolts', { oneTime: true, why: 'one on both faces of each banjo' }),
      piece('Earth wire screw', 1, 'head, left'),
    ],
  }),
  step(
    'Coolant hose off the head',
    'Clamp back, hose turned before it is pulled; a cut hose goes on the list for the kit.',
    {
      onlyIf: [{ fact: 'cooling', oneOf: ['water'] }],
      cautions: [caution('hot coolant', 'Cold to the hand: what stayed in the head runs out now.')],
      pieces: [piece('Coolant hose clamp', 1, 'head, front')],
    },
  ),
  step(
    'Head off',
    'Head bolts criss-cross from the outside in, half a turn at a time until all are loose. Lift straight; tap with a soft mallet, never lever at the face.',
    {
      cautions: [
        caution('lifting', 'Two hands: it comes loose all at once.'),
        caution('cuts', 'Gasket and machined edges cut.'),
      ],
      fastenerSet: 'head-bolts',
      photo: 'Chamber and gasket as they came off',
      pieces: [
        piece('Head bolt', 6, 'head', { why: 'looked over or renewed, as the sheet says' }),
        piece('Head bolt washer', 6, 'under the head bolts', { why: 'one a bolt; they stick in the wells' }),
        piece('Head', 1, 'cylinder', { layer: 'head', matchedSet: 'head and cam caps' }),
        piece('Head dowel', 2, 'head or cylinder', { why: 'two, each may stay in either part' }),
        piece('Head gasket', 1, 'cylinder', { oneTime: true }),
      ],
    },
  ),
];

const cylinderAndPiston: readonly StepData[] = [
  step(
    'Cylinder off',
    'Straight up by hand, the piston held as it comes free. A clean rag into the case mouth before anything else is touched.',
    {
      cautions: [caution('cuts', 'The rings snap open as the bore lets them go; the skirt’s edge cuts.')],
      pieces: [
        piece('Cylinder', 1, 'case', { layer: 'cylinder' }),
        piece('Cylinder dowel', 2, 'cylinder or case', { why: 'two, each may stay in either part' }),
        piece('Base gasket', 1, 'case', { oneTime: true }),
      ],
      putIn: [{ name: 'Rag', count: 1, where: 'case mouth' }],
    },
  ),
  ...boreSeen,
  step(
    'Piston off',
    'Rag in place all round the rod. Circlip out, pin out by hand or with a puller, never with a hammer: the rod bends. The second person looks that both circlips are here and the rag is whole.',
    {
      cautions: circlipsFly,
      secondPerson: true,
      tray: 'piston',
      photo: 'Piston crown and both skirts',
      pieces: [
        piece('Circlip', 2, 'piston', { oneTime: true, why: 'never used again' }),
        piece('Piston pin', 1, 'piston', { matchedSet: 'piston and pin' }),
        piece('Piston', 1, 'rod', { matchedSet: 'piston and pin' }),
        piece('Compression ring', 2, 'piston', { why: 'top and second differ in section and marks' }),
        piece('Oil rail', 2, 'piston', { why: 'above and below the spacer' }),
        piece('Oil spacer', 1, 'piston'),
      ],
    },
  ),
  covered,
];

export const fourStrokeStrip = (of: FourStrokeWork): ProcedureData => ({
  code: `${of.code}-STRIP`,
  name: `Strip the top end, ${of.name}`,
  kind: 'strip',
  note: manualDecides,
  steps: [
    ...section('Before anything is opened', inHand),
    ...section('Fluids, exhaust, intake', where(topEnd, fluids)),
    ...section('Cover and lash', coverAndLash),
    ...section('Cams', where(topEnd, camsOut(of.adjuster))),
    ...section('Head', where(topEnd, [...headOff, ...valvesOut])),
    ...section('Cylinder and piston', where(topEnd, cylinderAndPiston)),
  ],
});
