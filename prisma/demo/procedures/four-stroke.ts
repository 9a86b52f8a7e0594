import { manualDecides, type ProcedureData, piece, type StepData, step } from './procedure.ts';

export interface FourStrokeWork {
  readonly code: string;
  readonly name: string;
  readonly water: boolean;
  readonly adjuster: 'shim' | 'screw';
}

const makeSafe = (water: boolean): StepData =>
  step('Make it safe', 'Engine cold. Fuel off and tank away, battery off, plug lead earthed, stand blocked.', {
    caution: `Fuel vapour: no flame, doors open. ${water ? 'Coolant is under pressure while hot: open only cold. ' : ''}Lift with two people.`,
  });

const drain = (water: boolean): StepData =>
  step('Drain', `${water ? 'Coolant and oil' : 'Oil'} out, look at the oil and cut the filter open.`, {
    caution: 'Gloves; collect used oil and coolant by local rules.',
    pieces: [
      piece('Drain plug', 1, 'case, underside'),
      piece('Drain plug washer', 1, 'case, underside', { oneTime: true, why: 'a crush washer seals once' }),
    ],
  });

const valveTrain = (adjuster: FourStrokeWork['adjuster']): readonly StepData[] => [
  step('Cams out', 'Caps loosened in a criss-cross, a quarter turn at a time; caps, dowels and cams kept by place.', {
    caution: 'Caps loosened unevenly crack; the valve springs push on the cams.',
    fastenerSet: 'cam-caps',
    tray: 'valve train',
    pieces: [
      piece('Cam cap', 4, 'head', { matchedSet: 'head and cam caps', why: 'bored with this head' }),
      piece('Cam cap bolt', 8, 'cam caps', { why: 'two a cap' }),
      piece('Cam cap dowel', 8, 'cam caps or head', { why: 'two a cap, each may stay in either part' }),
      piece('Camshaft', 2, 'head'),
    ],
  }),
  adjuster === 'shim'
    ? step('Buckets and shims out', 'With a magnet, one valve at a time, laid in the board by valve.', {
        tray: 'valve train',
        pieces: [
          piece('Bucket', 4, 'head', { matchedSet: 'buckets by valve', why: 'runs in its own bore' }),
          piece('Shim', 4, 'under the buckets', { why: 'one a valve, its place decides the lash' }),
        ],
      })
    : step('Rockers out', 'Shafts out, rockers and their screws kept by valve.', {
        tray: 'valve train',
        pieces: [
          piece('Rocker', 4, 'head', { matchedSet: 'rockers by valve', why: 'worn in with its cam' }),
          piece('Rocker shaft', 2, 'head'),
          piece('Adjusting screw', 4, 'rockers', { why: 'one a rocker' }),
          piece('Adjusting screw nut', 4, 'rockers', { why: 'one a screw' }),
        ],
      }),
];

function strip(of: FourStrokeWork): ProcedureData {
  return {
    code: `${of.code}-STRIP`,
    name: `Strip the top end, ${of.name}`,
    kind: 'strip',
    note: manualDecides,
    steps: [
      makeSafe(of.water),
      drain(of.water),
      step('Valve cover off', 'Plug out, cover bolts criss-cross, cover straight up. From here the engine is open.', {
        fastenerSet: 'cover-bolts',
        pieces: [
          piece('Spark plug', 1, 'head'),
          piece('Valve cover', 1, 'head', { layer: 'cover' }),
          piece('Cover bolt', 4, 'valve cover'),
          piece('Cover bolt seal', 4, 'under the cover bolts', { why: 'one a bolt, some stay in the cover' }),
          piece('Cover gasket', 1, 'valve cover', { oneTime: true }),
        ],
      }),
      step('Measure the lash', 'Top dead centre on the compression stroke, before the cams come out.', {
        caution: 'Turned by hand only, plug lead earthed.',
        dimension: 'lash-in-l',
      }),
      step('Tensioner out, chain hung', 'Chain on a wire, so that it can’t fall into the case.', {
        caution: 'The tensioner springs out: hold it, eye protection.',
        pieces: [
          piece('Tensioner', 1, 'cylinder, rear'),
          piece('Tensioner bolt', 2, 'tensioner'),
          piece('Tensioner gasket', 1, 'tensioner', { oneTime: true }),
        ],
      }),
      ...valveTrain(of.adjuster),
      step('Head off', 'Oil feed first; head bolts criss-cross from the outside in, half a turn at a time.', {
        caution: 'The head is heavy and its edges are sharp: two hands.',
        fastenerSet: 'head-bolts',
        pieces: [
          piece('Oil feed banjo bolt', 2, 'head and case'),
          piece('Oil feed washer', 4, 'banjo bolts', { oneTime: true, why: 'one on both faces of each banjo' }),
          piece('Head bolt', 6, 'head'),
          piece('Head bolt washer', 6, 'under the head bolts', { why: 'one a bolt; they stick in the wells' }),
          piece('Head', 1, 'cylinder', { layer: 'head', matchedSet: 'head and cam caps' }),
          piece('Head dowel', 2, 'head or cylinder', { why: 'two, each may stay in either part' }),
          piece('Head gasket', 1, 'cylinder', { oneTime: true }),
        ],
      }),
      step('Cylinder off', 'Straight up; a clean rag into the case mouth before anything else.', {
        pieces: [
          piece('Cylinder', 1, 'case', { layer: 'cylinder' }),
          piece('Cylinder dowel', 2, 'cylinder or case', { why: 'two, each may stay in either part' }),
          piece('Base gasket', 1, 'case', { oneTime: true }),
          piece('Rag in the case mouth', 1, 'case mouth', { why: 'put in by us: it comes out before closing' }),
        ],
      }),
      step('Piston off', 'Rag in place, circlip out, pin out by hand.', {
        caution: 'Circlips fly: eye protection, and the rag closes the case.',
        secondPerson: true,
        tray: 'piston',
        pieces: [
          piece('Circlip', 2, 'piston', { oneTime: true, why: 'never used again' }),
          piece('Piston pin', 1, 'piston', { matchedSet: 'piston and pin' }),
          piece('Piston', 1, 'rod', { matchedSet: 'piston and pin' }),
          piece('Compression ring', 2, 'piston'),
          piece('Oil rail', 2, 'piston'),
          piece('Oil spacer', 1, 'piston'),
        ],
      }),
    ],
  };
}

function splitTheCase(of: FourStrokeWork): ProcedureData {
  return {
    code: `${of.code}-CASE`,
    name: `Split the case, ${of.name}`,
    kind: 'strip',
    note: manualDecides,
    steps: [
      step('Covers and clutch off', 'Side covers, clutch, primary gear, alternator; every shim washer by its shaft.', {
        tray: 'case',
        pieces: [
          piece('Side cover bolt', 12, 'side covers'),
          piece('Side cover gasket', 2, 'case', { oneTime: true }),
          piece('Clutch plate', 13, 'clutch', { matchedSet: 'clutch pack' }),
          piece('Shim washer', 3, 'shafts', { why: 'one a shaft; they stick to the cover with oil' }),
        ],
      }),
      step('Case split', 'Bolts criss-cross, then the splitter; never a lever between the faces.', {
        caution: 'Heat on the bearing seats: gloves. The crank is heavy.',
        fastenerSet: 'case-bolts',
        tray: 'case',
        pieces: [
          piece('Case bolt', 10, 'case'),
          piece('Case half', 1, 'engine', { layer: 'case', matchedSet: 'case halves', why: 'bored together' }),
          piece('Case gasket', 1, 'case', { oneTime: true }),
          piece('Main bearing', 2, 'case', { why: 'one a side' }),
        ],
      }),
    ],
  };
}

function assemble(of: FourStrokeWork): ProcedureData {
  return {
    code: `${of.code}-BUILD`,
    name: `Assemble the top end, ${of.name}`,
    kind: 'assemble',
    note: manualDecides,
    steps: [
      step(
        'Clean and oiled',
        'Cylinder washed until a white cloth stays white, dried, oiled at once; every passage blown through.',
        {
          caution: 'Compressed air: eye protection. Solvent: no flame, ventilate.',
        },
      ),
      step('Ring gaps in this bore', 'Each ring squared in the bore it will run in.', {
        dimension: 'ring-gap-top',
        tray: 'piston',
      }),
      step(
        'Rings on',
        'Spacer first, its ends butted and not overlapped, rails, then second and top, marks up; gaps turned.',
        { tray: 'piston' },
      ),
      step('Piston on', 'New circlips, opening away from the notch, seated all round: the second person feels them.', {
        caution: 'Circlips fly: eye protection, and the rag closes the case.',
        secondPerson: true,
        tray: 'piston',
      }),
      step('Cylinder on', 'New base gasket, dowels in, rings in by hand, rag out and off the tally.'),
      step('Head on', 'New gasket, dowels, bolts oiled; all of a stage before the next.', {
        fastenerSet: 'head-bolts',
      }),
      step(
        'Cams in on their marks',
        'Marks on the second person’s word; caps criss-cross, all of a stage before the next.',
        {
          caution: 'A cam out by a tooth bends valves.',
          fastenerSet: 'cam-caps',
          secondPerson: true,
          tray: 'valve train',
        },
      ),
      step('Tensioner in, turned twice', 'Turned over by hand twice; stop at any resistance.', {
        caution: 'Plug lead earthed, fingers clear.',
      }),
      step(
        'Lash',
        of.adjuster === 'shim'
          ? 'Measured again, shims chosen, measured once more.'
          : 'Set by the screws, nuts held, measured again.',
        {
          dimension: 'lash-in-l',
          tray: 'valve train',
        },
      ),
      step('Cover on', 'New gasket and washers; every piece of the tally has its place.', {
        fastenerSet: 'cover-bolts',
      }),
    ],
  };
}

function prove(of: FourStrokeWork): ProcedureData {
  return {
    code: `${of.code}-PROVE`,
    name: `Prove, ${of.name}`,
    kind: 'prove',
    note: manualDecides,
    steps: [
      step('Fill', of.water ? 'Oil and coolant to their marks, bled.' : 'Oil to its mark, filter primed.'),
      step('Leak-down', 'At top dead centre on compression, crank held.', {
        dimension: 'leak-down',
        caution: 'The air turns the engine: hands clear.',
      }),
      step('First start', 'Oil pressure within 10 s, then listen.', {
        caution: 'Exhaust led outdoors, extinguisher at hand.',
        secondPerson: true,
      }),
      step('Heat cycles', 'Three times warm and cold.', { caution: 'Hot parts; open the cooling circuit only cold.' }),
      step('Check again', 'Levels, leaks, the bolts the manual names, lash cold.', { dimension: 'lash-in-l' }),
    ],
  };
}

export const fourStrokeProcedures = (of: FourStrokeWork): readonly ProcedureData[] => [
  strip(of),
  splitTheCase(of),
  assemble(of),
  prove(of),
];
