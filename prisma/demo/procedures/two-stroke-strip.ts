import { boreSeen, coolantOut, covered, drainPieces, makeItSafe, sparkPlugOut } from './both-strokes.ts';
import {
  asReceived,
  caution,
  circlipsFly,
  manualDecides,
  type ProcedureData,
  piece,
  plugThread,
  pulledThrough,
  type StepData,
  section,
  step,
  wellBlown,
} from './procedure.ts';

const before: readonly StepData[] = [
  step(
    'Take it in hand',
    'Washed outside and dry, dirt out from between head and frame. Read the complaint, the hours, the owner’s wishes, and which fuel and oil it ran on.',
    { photo: 'Both sides as it came, and whatever is broken or missing' },
  ),
  step(
    'Compression as it came',
    'Plug well blown clean, plug out. Throttle wide open, kicked until the needle climbs no more. Plug in again, so that nothing falls in and the crankcase can be tried.',
    {
      readings: asReceived('compression'),
      cautions: [
        pulledThrough,
        wellBlown,
        plugThread,
        caution('fuel and solvent vapour', 'Fuel tap shut: mist blown out of the plug hole burns.'),
      ],
    },
  ),
  makeItSafe('Bike on a stand with two people; strapped before the pipe comes off.'),
];

const outside: readonly StepData[] = [
  step(
    'Pipe off',
    'Springs off with a hook, silencer loosened first. Look into the exhaust port with a lamp: the piston’s skirt and rings show.',
    {
      cautions: [
        caution('springs under load', 'Pipe springs fly: a hook with a handle, face away, eye protection.'),
        caution('hot parts', 'Only when the pipe can be held with the bare hand.'),
      ],
      photo: 'The piston through the exhaust port',
      pieces: [
        piece('Pipe spring', 2, 'exhaust flange', { why: 'two hooks' }),
        piece('Exhaust o-ring', 2, 'exhaust flange', { oneTime: true, why: 'two grooves' }),
      ],
      putIn: [{ name: 'Plug', count: 1, where: 'exhaust port' }],
    },
  ),
  coolantOut,
  step(
    'Drain',
    'Gearbox oil out, looked at and rubbed between finger and thumb: grey is clutch, glitter is gears or a bearing.',
    {
      fastenerSet: 'drain-plug',
      cautions: [caution('used oil and coolant', 'Gloves: used oil harms the skin. Collect it by local rules.')],
      pieces: drainPieces,
    },
  ),
  step(
    'Carburettor off',
    'Tap shut, float bowl drained into a can, clamps slack, carburettor hung up by its cable and wrapped.',
    {
      cautions: [caution('fuel and solvent vapour', 'Fuel runs out of bowl and line: no flame, no spark, doors open.')],
      pieces: [piece('Intake boot clamp', 2, 'intake', { why: 'one a side of the boot' })],
    },
  ),
  step(
    'Crankcase leak-down as it came',
    'Intake boot and exhaust port blanked off, the crankcase under the manual’s low pressure. Soap on both crank seals, base, head and reed block: say where it leaks.',
    {
      readings: asReceived('leak-down'),
      cautions: [caution('compressed air', 'Never above the pressure in the manual: it blows the crank seals out.')],
    },
  ),
  step(
    'Reed block out',
    'Screws criss-cross, block straight out; the rag goes into the port at once. Petals held to the light.',
    {
      fastenerSet: 'reed-screws',
      tray: 'piston',
      pieces: [
        piece('Reed block', 1, 'intake'),
        piece('Reed block screw', 4, 'intake', { why: 'what falls here falls into the crankcase' }),
        piece('Reed gasket', 1, 'intake', { oneTime: true }),
      ],
      putIn: [{ name: 'Rag', count: 1, where: 'intake port' }],
      asks: {
        code: 'reeds',
        words: 'How are the reed petals?',
        choices: [
          { code: 'shut', words: 'All whole, no light past them' },
          { code: 'chipped', words: 'A piece has broken off' },
          { code: 'open', words: 'Whole, but one stands open' },
        ],
      },
    },
  ),
  step(
    'A piece of reed is missing',
    'It has gone through the engine or lies in it. Nothing is turned from here. The second person looks into port and case mouth with a lamp; the lead says how far it is opened.',
    {
      onlyIf: [{ question: 'reeds', oneOf: ['chipped'] }],
      secondPerson: true,
      cautions: [caution('damage', 'A turn of the crank draws it into the big end.')],
      photo: 'The broken petal beside the hole it left',
    },
  ),
];

const topEnd: readonly StepData[] = [
  sparkPlugOut('Its insulator tells the mixture: looked at in daylight, kept with its engine.'),
  step(
    'Head off',
    'Nuts criss-cross from the outside in, half a turn at a time until all are loose. Head straight up. From here the engine is open and every piece is tallied.',
    {
      fastenerSet: 'head-nuts',
      cautions: [caution('cuts', 'The squish edge is sharp.')],
      photo: 'Chamber and crown: colour of all four quarters',
      pieces: [
        piece('Head nut', 6, 'head', { why: 'one a stud' }),
        piece('Head nut washer', 6, 'under the head nuts', { why: 'one a nut; they stick in the wells' }),
        piece('Head', 1, 'cylinder', { layer: 'head' }),
        piece('Head o-ring', 2, 'cylinder', { oneTime: true, why: 'an inner and an outer one' }),
      ],
    },
  ),
  step(
    'Cylinder off',
    'Straight up and never turned: a ring end catches in a port and breaks. A clean rag into the case mouth before anything else is touched.',
    {
      fastenerSet: 'base-nuts',
      cautions: [caution('cuts', 'Port edges and the rings that snap open cut.')],
      pieces: [
        piece('Base nut', 4, 'case', { why: 'one a stud' }),
        piece('Base nut washer', 4, 'under the base nuts', { why: 'one a nut' }),
        piece('Cylinder', 1, 'case', { layer: 'cylinder' }),
        piece('Cylinder dowel', 2, 'cylinder or case', { why: 'two, each may stay in either part' }),
        piece('Base gasket', 1, 'case', {
          oneTime: true,
          why: 'its thickness sets the port timing: kept to be measured',
        }),
      ],
      putIn: [{ name: 'Rag', count: 1, where: 'case mouth' }],
    },
  ),
  ...boreSeen,
  step(
    'Piston off',
    'Rag in place all round the rod. Circlip out, pin out by hand or with a puller, never with a hammer. The second person looks that both circlips are here and every needle of the small end.',
    {
      cautions: circlipsFly,
      secondPerson: true,
      tray: 'piston',
      photo: 'Piston crown, both skirts and the ring pegs',
      pieces: [
        piece('Circlip', 2, 'piston', { oneTime: true, why: 'never used again' }),
        piece('Piston pin', 1, 'piston', { matchedSet: 'piston and pin' }),
        piece('Small-end bearing', 1, 'rod', { why: 'its needles may fall out of the cage: look at all' }),
        piece('Piston', 1, 'rod', { matchedSet: 'piston and pin' }),
        piece('Ring', 2, 'piston', { why: 'each to its own groove and peg' }),
      ],
    },
  ),
  step(
    'Big end felt',
    'Rod turned to the top with the rag held clear of the webs, drawn straight up and pressed down: no play may be felt. To and fro along the pin it may move.',
    {
      readings: asReceived('rod-radial'),
      cautions: [pulledThrough],
    },
  ),
  covered,
];

export const twoStrokeStrip: ProcedureData = {
  code: 'O125-STRIP',
  name: 'Strip the top end, Ostrel 125 T',
  kind: 'strip',
  note: manualDecides,
  steps: [
    ...section('Before anything is opened', before),
    ...section('Pipe, fluids, intake', outside),
    ...section('Top end', topEnd),
  ],
};
