import { backOn, caution, type PieceData, piece, type StepData, step, where } from './procedure.ts';

const linkPieces: readonly PieceData[] = [
  piece('Shift shaft', 1, 'case, right'),
  piece('Shift shaft washer', 1, 'shift shaft', { why: 'sticks to the case' }),
  piece('Shift star', 1, 'shift drum'),
  piece('Shift star bolt', 1, 'shift drum'),
  piece('Shift star pin', 1, 'shift drum', { why: 'loose once the star is off' }),
  piece('Stopper arm', 1, 'case, right'),
  piece('Stopper arm bolt', 1, 'case, right', { why: 'a shouldered bolt: no other fits' }),
  piece('Stopper arm spring', 1, 'case, right'),
];

const shaftPieces: readonly PieceData[] = [
  piece('Mainshaft with its gears', 1, 'case'),
  piece('Countershaft with its gears', 1, 'case'),
  piece('Gearbox end washer', 3, 'shaft ends and case', {
    why: 'they set the shafts’ float; they stick to the case with oil',
  }),
  piece('Shift drum', 1, 'case'),
  piece('Shift fork', 3, 'fork shafts', { matchedSet: 'forks by gear', why: 'each runs in its own groove' }),
  piece('Fork shaft', 2, 'case', { why: 'they may differ in length' }),
];

export const linkageOut = step(
  'Shift linkage off',
  'Shaft drawn straight out. Spring of the stopper arm let go first; star off with its pin. Engine left in neutral.',
  {
    fastenerSet: 'shift-bolts',
    tray: 'case',
    cautions: [
      caution('springs under load', 'The arm’s spring flies when the bolt lets go: a hook on it, eye protection.'),
    ],
    photo: 'How both ends of the spring lie',
    pieces: linkPieces,
  },
);

export const linkageIn = step(
  'Shift linkage on',
  'Star on its pin; bolts with a drop of the thread locker the manual names, on clean dry threads. Spring hooked as on the photo. Shaft in with its washer; every gear found up and down by hand, the shafts turned all the while.',
  {
    fastenerSet: 'shift-bolts',
    tray: 'case',
    cautions: [
      caution('springs under load', 'The arm’s spring flies from the hook: eye protection.'),
      caution('moving parts', 'Fingers clear of the dogs while the shafts are turned.'),
    ],
    asks: {
      code: 'gears-found',
      words: 'Is every gear found, up and down?',
      choices: [
        { code: 'all', words: 'All, and neutral' },
        { code: 'not', words: 'One is not found, or jumps out' },
      ],
    },
    pieces: backOn(linkPieces),
  },
);

export const linkageWrong = step(
  'A gear is not found: no further',
  'Linkage off again and looked at: spring, star pin, arm. If that is right, a fork or a washer is in the wrong place and the halves come apart again. The second person tries every gear once it is put right.',
  {
    onlyIf: [{ question: 'gears-found', oneOf: ['not'] }],
    secondPerson: true,
    cautions: [caution('damage', 'It does not wear in: a gear that jumps out throws the rider.')],
  },
);

export const gearboxOut: readonly StepData[] = [
  step(
    'Gearbox out',
    'Fork shafts drawn, forks swung clear and each put back on its shaft; drum out; both gear shafts together, a hand under each end. Look in both halves for washers before anything is turned over.',
    {
      tray: 'case',
      cautions: [caution('cuts', 'Dogs and splines have sharp edges: no fingers between two gears that slide.')],
      photo: 'Forks on their shafts, and each end washer beside its shaft',
      pieces: shaftPieces,
      asks: {
        code: 'gears',
        words: 'How are dogs, teeth and forks?',
        choices: [
          { code: 'sound', words: 'Square dogs, clean teeth, forks straight' },
          { code: 'worn', words: 'Dogs rounded, teeth pitted, or a fork bent or blue' },
        ],
      },
    },
  ),
  ...where({ question: 'gears', oneOf: ['worn'] }, [
    step(
      'Worn gears: which, and the lead told',
      'Name the gear and its partner: they are renewed as a pair, and with them the fork that held them. Chips from them lie elsewhere too: every oilway and bearing is looked at before a quote is written.',
      { photo: 'The worn dogs or teeth, and the gear they run in' },
    ),
  ]),
];

export const gearboxIn: readonly StepData[] = [
  step(
    'Gearbox in',
    'Shafts oiled and meshed on the bench, set into the case together with their washers. Drum in neutral, each fork in its own groove with its mark the way the manual shows, fork shafts through. Every washer of the tray is on a shaft.',
    {
      tray: 'case',
      cautions: [
        caution('cuts', 'No fingers between two gears that slide.'),
        caution('damage', 'A washer left out lets the shaft walk: a gear jumps out under load.'),
      ],
      photo: 'Forks in their grooves, drum in neutral',
      pieces: backOn(shaftPieces),
    },
  ),
];
