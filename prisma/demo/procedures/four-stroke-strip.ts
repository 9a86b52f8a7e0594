import { boreSeen, coolantOut, covered, drainPieces, makeItSafe } from './both-strokes.ts';
import { valvesOut } from './four-stroke-valves.ts';
import {
  asReceived,
  caution,
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

const inHand: readonly StepData[] = [
  step(
    'Take it in hand',
    'Washed outside and dry: dirt that falls in is worse than what it came for. Read the complaint, the hours and the owner’s wishes once more.',
    {
      photo: 'Both sides as it came, and whatever is broken or missing',
      asks: {
        code: 'depth',
        words: 'How far is it opened?',
        choices: [
          { code: 'top-end', words: 'The top end comes off' },
          { code: 'lash', words: 'Cover only, to check and set the lash' },
        ],
      },
    },
  ),
  step(
    'Compression and leak-down as it came',
    'Throttle wide open for the compression; leak-down at top dead centre on the compression stroke. Listen where the air goes: intake, exhaust, crankcase, coolant.',
    {
      readings: asReceived('compression', 'leak-down'),
      cautions: [
        pulledThrough,
        caution('fuel and solvent vapour', 'Fuel tap shut: mist blown out of the plug hole burns.'),
        caution(
          'compressed air',
          'The air turns the engine: air on slowly, hands clear, no spanner left on the crank.',
        ),
        caution('hot parts', 'If it was run to get here: plug and pipe burn, gloves.'),
      ],
    },
  ),
  makeItSafe('Engine on the bench with a hoist or two people; it is blocked before anybody lets go.'),
];

const fluids: readonly StepData[] = [
  coolantOut,
  step(
    'Drain',
    'Oil out hand-warm at most, never hot. Look at it, rub it between finger and thumb. Filter out, cut open, its pleats unfolded on white paper.',
    {
      photo: 'The filter’s pleats unfolded',
      cautions: [
        caution('used oil and coolant', 'Gloves: used oil harms the skin. Collect oil and filter by local rules.'),
      ],
      pieces: [
        ...drainPieces,
        piece('Filter cover bolt', 2, 'case, right'),
        piece('Filter cover o-ring', 1, 'filter cover', { oneTime: true }),
        piece('Oil filter', 1, 'case, right', { oneTime: true, why: 'kept in a bag until the job is handed back' }),
      ],
      asks: {
        code: 'oil',
        words: 'What is in oil and filter?',
        choices: [
          { code: 'clean', words: 'Dark but clean, a little fine grey' },
          { code: 'metal', words: 'Flakes, chips or glitter' },
          { code: 'water', words: 'Milky: water in it' },
        ],
      },
    },
  ),
  step(
    'Metal or water in the oil: the lead is told',
    'Stop here. Bag the filter with the job’s number. Chips point to bearings, gears or the pump, water to gasket, pump seal or a crack: the lead says whether the case is split too, before the counter quotes.',
    { onlyIf: [{ question: 'oil', oneOf: ['metal', 'water'] }] },
  ),
  step(
    'Exhaust and intake off',
    'Exhaust nuts soaked first. Throttle body out of its boot with a twist; hoses marked by place.',
    {
      cautions: [
        caution('hot parts', 'Only when the pipe can be held with the bare hand.'),
        caution('fuel and solvent vapour', 'The fuel line is still wet: clamp it, a rag under it, no spark.'),
      ],
      pieces: [
        piece('Exhaust nut', 2, 'exhaust port', { why: 'two studs' }),
        piece('Exhaust gasket', 1, 'exhaust port', { oneTime: true }),
        piece('Intake boot clamp', 2, 'intake', { why: 'one a side of the boot' }),
      ],
      putIn: [
        { name: 'Plug', count: 1, where: 'intake port' },
        { name: 'Plug', count: 1, where: 'exhaust port' },
      ],
    },
  ),
];

const coverAndLash: readonly StepData[] = [
  step(
    'Valve cover off',
    'Blow the plug well clean, plug out. Cover bolts criss-cross, cover straight up, never levered at the face. From here the engine is open and every piece is tallied.',
    {
      fastenerSet: 'cover-bolts',
      cautions: [caution('compressed air', 'Grit flies out of the plug well: eye protection.')],
      pieces: [
        piece('Spark plug', 1, 'head'),
        piece('Valve cover', 1, 'head', { layer: 'cover' }),
        piece('Cover bolt', 4, 'valve cover'),
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

const adjusters = (adjuster: FourStrokeWork['adjuster']): StepData =>
  adjuster === 'shim'
    ? step(
        'Buckets and shims out',
        'With a magnet, one valve at a time, each laid in the board in the place of its valve. Look under every bucket: the shim may stick to the spring seat.',
        {
          tray: 'valve train',
          photo: 'The board with all four in their places',
          pieces: [
            piece('Bucket', 4, 'head', { matchedSet: 'buckets by valve', why: 'runs in its own bore' }),
            piece('Shim', 4, 'under the buckets', {
              matchedSet: 'shims by valve',
              why: 'one a valve, its place decides the lash',
            }),
          ],
        },
      )
    : step('Rockers out', 'Shafts out by their threaded ends, rockers and screws kept by valve.', {
        tray: 'valve train',
        cautions: [
          caution(
            'springs under load',
            'A rocker may still stand under a valve spring: turn the crank until its valve is shut.',
          ),
        ],
        photo: 'Rockers laid out by valve',
        pieces: [
          piece('Rocker', 4, 'head', { matchedSet: 'rockers by valve', why: 'worn in with its cam' }),
          piece('Rocker shaft', 2, 'head'),
          piece('Adjusting screw', 4, 'rockers', { matchedSet: 'screws by valve', why: 'one a rocker' }),
          piece('Adjusting screw nut', 4, 'rockers', { why: 'one a screw' }),
        ],
      });

const cams = (adjuster: FourStrokeWork['adjuster']): readonly StepData[] => [
  step(
    'Tensioner out, chain hung',
    'Centre bolt of the tensioner slackened first, then its two bolts. The chain is hung on a wire: it must not fall into the case.',
    {
      cautions: [
        caution(
          'springs under load',
          'The tensioner springs out: press it home while the bolts come out, eye protection.',
        ),
      ],
      pieces: [
        piece('Tensioner', 1, 'cylinder, rear'),
        piece('Tensioner bolt', 2, 'tensioner'),
        piece('Tensioner gasket', 1, 'tensioner', { oneTime: true }),
      ],
      putIn: [{ name: 'Rag', count: 1, where: 'chain tunnel' }],
    },
  ),
  step(
    'Cams out',
    'Caps loosened in a criss-cross, a quarter turn at a time, until the springs push no more; caps with their dowels kept by place and direction.',
    {
      cautions: [
        caution('springs under load', 'The valve springs push on the cams: never one cap at a time.'),
        caution('damage', 'Caps loosened unevenly crack, and caps, cams and head are one set.'),
      ],
      fastenerSet: 'cam-caps',
      tray: 'valve train',
      photo: 'Marks on the caps: place and direction',
      pieces: [
        piece('Cam cap', 4, 'head', { matchedSet: 'head and cam caps', why: 'bored with this head' }),
        piece('Cam cap bolt', 8, 'cam caps', { why: 'two a cap' }),
        piece('Cam cap dowel', 8, 'cam caps or head', { why: 'two a cap, each may stay in either part' }),
        piece('Locating half-ring', 2, 'cam bearings', { why: 'one a cam; it lies loose in its groove' }),
        piece('Camshaft', 2, 'head'),
      ],
    },
  ),
  adjusters(adjuster),
];

const headOff: readonly StepData[] = [
  step('Oil feed and earth wire off', 'Banjo bolts out over a rag, both washers of each with it; feed pipe bagged.', {
    cautions: [caution('used oil and coolant', 'Oil runs out of the pipe: catch it.')],
    pieces: [
      piece('Oil feed banjo bolt', 2, 'head and case'),
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
        piece('Head bolt', 6, 'head'),
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
      cautions: [
        caution('springs under load', 'Circlips fly: a thumb over it, and the rag closes the case.'),
        caution('eyes', 'Eye protection, for whoever looks on too.'),
      ],
      secondPerson: true,
      tray: 'piston',
      photo: 'Piston crown and both skirts',
      pieces: [
        piece('Circlip', 2, 'piston', { oneTime: true, why: 'never used again' }),
        piece('Piston pin', 1, 'piston', { matchedSet: 'piston and pin' }),
        piece('Piston', 1, 'rod', { matchedSet: 'piston and pin' }),
        piece('Compression ring', 2, 'piston'),
        piece('Oil rail', 2, 'piston'),
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
    ...section('Cams', where(topEnd, cams(of.adjuster))),
    ...section('Head', where(topEnd, [...headOff, ...valvesOut])),
    ...section('Cylinder and piston', where(topEnd, cylinderAndPiston)),
  ],
});
