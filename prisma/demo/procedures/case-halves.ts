import { backOn, caution, type PieceData, piece, pulledThrough, type StepData, step, where } from './procedure.ts';

const halves = (bolts: number): readonly PieceData[] => [
  piece('Case bolt', bolts, 'case', { why: 'two lengths: kept in a card by place' }),
  piece('Case half', 1, 'engine', { layer: 'case', matchedSet: 'case halves', why: 'bored together' }),
  piece('Case dowel', 2, 'case halves', { why: 'two, each may stay in either half' }),
  piece('Case gasket', 1, 'case', { oneTime: true }),
];

export const caseSplit = (bolts: number): StepData =>
  step(
    'Case split',
    'Rag out of the case mouth and off the tally. Bolts criss-cross, then the splitter; warmed at the bearing seats. Never a lever between the faces. The second person looks that no bolt is left in before force goes on.',
    {
      cautions: [
        caution('hot parts', 'Heat on the bearing seats: gloves, no solvent near it.'),
        caution('lifting', 'The crank comes away with one half: two people.'),
      ],
      fastenerSet: 'case-bolts',
      secondPerson: true,
      tray: 'case',
      photo: 'Gears and shims of both halves as they lie',
      pieces: halves(bolts),
    },
  );

/** The halves closed over everything that lies between them, and what a hand feels then. */
export const caseClosed = (of: { readonly bolts: number; readonly between: string }): readonly StepData[] => [
  step(
    'Looked over before it closes',
    `With a lamp, both halves: ${of.between}. Every tray of the case is empty but for what goes on outside. The second person reads the tally aloud, piece by piece.`,
    {
      secondPerson: true,
      cautions: [
        caution('damage', 'What is left between the halves now is found by the engine: no rag, no chip, no tool.'),
      ],
      photo: 'Both halves as they are closed over',
    },
  ),
  step(
    'Case halves together',
    'Faces wiped once more, new gasket or a thin bead of the sealer the manual names, away from oilways. Both dowels in. Pressed together by hand or tapped with a mallet until they meet all round: bolts never draw a case shut. Bolts by their card; crank and shafts turned after each stage.',
    {
      fastenerSet: 'case-bolts',
      tray: 'case',
      cautions: [
        caution('lifting', 'Two people: one holds the half level, the other guides shafts and rod.'),
        caution('cuts', 'Fingers out from between the faces before it drops onto the dowels.'),
        caution('fuel and solvent vapour', 'Sealer and cleaner: no flame, doors open, gloves.'),
        pulledThrough,
        caution('damage', 'A gap that does not close has a washer, a fork or a bearing in its way: lift it off again.'),
      ],
      pieces: backOn(halves(of.bolts)),
    },
  ),
  step(
    'Turned by hand, closed',
    'Crank through two turns, rod held up; both gear shafts spun. A crank that drags is let settle by a tap on its ends with a soft mallet, and tried again.',
    {
      cautions: [pulledThrough],
      asks: {
        code: 'turns',
        words: 'How does it turn?',
        choices: [
          { code: 'free', words: 'Free and even, no rub, no tight place' },
          { code: 'binds', words: 'It drags, rubs or catches' },
        ],
      },
    },
  ),
  ...where({ question: 'turns', oneOf: ['binds'] }, [
    step(
      'It binds: the halves come apart again',
      'Nothing is forced. Bolts out in reverse order, half lifted, and the cause found: a washer doubled, a bearing not home, a crank out of true. Then closed again from the step that looks it over, and the second person turns it too.',
      {
        secondPerson: true,
        cautions: [caution('damage', 'A crank that runs under a side load spoils its bearings within the hour.')],
      },
    ),
  ]),
];
