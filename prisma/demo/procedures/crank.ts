import {
  asBuilt,
  asReceived,
  backOn,
  caution,
  type PieceData,
  piece,
  pulledThrough,
  type StepData,
  step,
  where,
} from './procedure.ts';

export interface CrankWork {
  /** Seals in the case, of crank and shafts. */
  readonly seals: number;
  /** Why the crank’s own seals are looked at with more care in this kind of engine. */
  readonly sealWords: string;
}

const measured = ['rod-side', 'rod-radial', 'crank-runout-left', 'crank-runout-right'];

const crank: readonly PieceData[] = [
  piece('Crank', 1, 'case', { why: 'with its rod, as one' }),
  piece('Crank shim', 1, 'crank, left', { why: 'sets its end float; it stays in the bearing’s inner ring' }),
];

const seals = ({ seals: count }: CrankWork): readonly PieceData[] => [
  piece('Shaft seal', count, 'case halves', { oneTime: true, why: 'their lips are worn to their old shafts' }),
];

const bearings: readonly PieceData[] = [
  piece('Main bearing', 2, 'case', { oneTime: true, why: 'one a side; drawn by its inner ring it is spoilt' }),
  piece('Bearing retainer', 2, 'case halves', { why: 'one a side; a bearing without it walks out of its seat' }),
  piece('Bearing retainer screw', 4, 'bearing retainers', { why: 'two a retainer' }),
];

export const crankOut = step(
  'Crank out',
  'Rod wrapped and held up. Pressed out on its end, the case carried close to the bearing, never struck.',
  {
    tray: 'case',
    cautions: [
      caution('lifting', 'The crank is heavy and its journals mark: two hands, onto wood.'),
      caution('eyes', 'What is pressed may let go or chip: eye protection, nobody in front of the press.'),
      caution('damage', 'A blow on the end closes the webs and bends what was straight.'),
    ],
    pieces: crank,
  },
);

const endFloat = ['crank-end-float'];
const pushed =
  'Dial on the end of the crank, in line with it. Crank pushed by hand to one side, dial to zero, pushed to the other: what it shows is the float.';

/** While the halves still hold it: apart, nobody can say any more what shim it ran with. */
export const crankFloatFelt = step('Crank end float, as it came', `${pushed} No lever between web and case.`, {
  readings: asReceived(...endFloat),
  cautions: [pulledThrough],
});

/** The halves closed for good, before anything hides the end of the crank. */
export const crankFloatProved = step(
  'Crank end float, closed',
  `${pushed} Outside its figures the halves come apart again and the shim is chosen anew: the lead decides.`,
  { readings: asBuilt(...endFloat), cautions: [pulledThrough] },
);

/** Once it lies bare on the bench. */
export const crankMeasured = step(
  'Crank measured',
  'On its bearings’ seats in vee blocks. Rod to one side for the blades; then straight up and down by hand.',
  {
    readings: asReceived(...measured),
    cautions: [caution('lifting', 'Chocked on the bench so that it cannot roll.')],
  },
);

export const bearingsOut = (of: CrankWork): readonly StepData[] => [
  step(
    'Seals out',
    'Note which way each lip looks and how deep it sits. Lifted out with a hook, not across the seat.',
    {
      tray: 'case',
      cautions: [caution('damage', 'A scratch across the seat leaks past a new seal.')],
      photo: 'Each seal in its seat, its lip and its depth',
      pieces: seals(of),
    },
  ),
  step(
    'Bearings felt',
    'Washed, dried, a drop of oil, turned slowly by hand under a little side load: the mains, and every other bearing of the halves. One of the others that is rough is named to the lead by its place, and renewed by the same rules.',
    {
      cautions: [caution('compressed air', 'Never spin a bearing with air: it bursts or scores.')],
      asks: {
        code: 'bearings',
        words: 'How do the main bearings feel?',
        choices: [
          { code: 'smooth', words: 'Smooth and quiet, tight in the case' },
          { code: 'rough', words: 'Rough, loose or blue: they come out' },
          { code: 'loose-seat', words: 'The ring turns in the case' },
        ],
      },
    },
  ),
  step(
    'Main bearings out',
    'Retainers off, case in the oven to the manual’s heat, bearing falls or is pressed out by its outer ring.',
    {
      onlyIf: [{ question: 'bearings', oneOf: ['rough', 'loose-seat'] }],
      fastenerSet: 'bearing-retainer-screws',
      tray: 'case',
      cautions: [
        caution('hot parts', 'Oven gloves to the elbow, wood under it; tell the room that it is hot.'),
        caution(
          'fuel and solvent vapour',
          'No solvent left in it when it goes into the oven: wash, then dry outdoors.',
        ),
        caution('eyes', 'What is pressed may let go or chip: eye protection.'),
      ],
      pieces: bearings,
    },
  ),
  step(
    'A ring turns in the case: the lead is told',
    'The seat is worn. Punching it up or gluing it in does not hold: the lead decides between a sleeved seat at the vendor’s and another pair of halves, before a bearing is ordered.',
    { onlyIf: [{ question: 'bearings', oneOf: ['loose-seat'] }], photo: 'The bright track in the bearing’s seat' },
  ),
];

export const bearingsIn = (of: CrankWork): readonly StepData[] => [
  step(
    'Halves ready',
    'Seats clean and without a burr, every oilway blown through and seen to be open, threads run through by hand.',
    {
      cautions: [
        caution('compressed air', 'Eye protection; never towards skin or anybody else. Low pressure for oilways.'),
      ],
      asks: {
        code: 'bearings',
        words: 'Are the main bearings in?',
        choices: [
          { code: 'in', words: 'They stayed in' },
          { code: 'out', words: 'New ones go in now' },
        ],
      },
    },
  ),
  ...where({ question: 'bearings', oneOf: ['out'] }, [
    step(
      'Main bearings in',
      'Case out of the oven, bearing out of the freezer, dropped in square to its stop with its markings outwards; pressed by the outer ring alone if it stays proud. Cold again: retainers on, screws clean and dry with the thread locker the manual names. The second person turns each bearing and looks at its stop.',
      {
        fastenerSet: 'bearing-retainer-screws',
        tray: 'case',
        secondPerson: true,
        cautions: [
          caution('hot parts', 'Oven gloves to the elbow; tell the room that it is hot.'),
          caution('other', 'What comes from the freezer sticks to bare skin and burns it: gloves.'),
          caution('damage', 'Pressed by its inner ring, its tracks are dented before it has turned once.'),
        ],
        photo: 'Both bearings home, retainers on',
        pieces: backOn(bearings),
      },
    ),
  ]),
  step(
    'Seals in',
    `Lips greased, driven square with a ring of their own size to the depth of the photo. ${of.sealWords}`,
    {
      tray: 'case',
      cautions: [
        caution('damage', 'A spline or keyway cuts the lip: tape or a sleeve over it before a shaft goes through.'),
      ],
      pieces: backOn(seals(of)),
    },
  ),
];

export const crankIn: readonly StepData[] = [
  step(
    'Crank measured as it goes in',
    'New, rebuilt or the old one: on vee blocks, before it goes in; out of true, it goes no further.',
    {
      readings: asBuilt(...measured),
      cautions: [caution('lifting', 'Chocked on the bench so that it cannot roll.')],
    },
  ),
  step(
    'Crank in',
    'Shim on its end, bearings oiled, rod wrapped and up through the mouth. Drawn in by its thread with the puller until it sits, nothing pushing on the webs; never driven. It turns free.',
    {
      tray: 'case',
      cautions: [
        caution('lifting', 'Two people: one carries the crank, the other the case.'),
        caution('cuts', 'The rod falls over when it is let go: fingers out from between web and case.'),
        caution('damage', 'A blow on the end puts it out of true; whatever pushes on a web closes the crank.'),
        pulledThrough,
      ],
      pieces: backOn(crank),
    },
  ),
];
