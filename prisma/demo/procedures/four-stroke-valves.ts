import { caution, onlookersToo, piece, type StepData, step } from './procedure.ts';

/** Valves come out of their springs only where the head is to be measured bare. */
export const valvesOut: readonly StepData[] = [
  step(
    'Head looked at on the bench',
    'Ports up, a little solvent poured in: what runs past a seat in a minute shows a valve that does not close. Stems rocked in their guides with the valve a little open.',
    {
      cautions: [caution('fuel and solvent vapour', 'A spoonful is enough: no flame, wiped out at once, gloves.')],
      asks: {
        code: 'valves',
        words: 'Do the valves come out?',
        choices: [
          { code: 'stay', words: 'Tight and without play: they stay in' },
          { code: 'out', words: 'Out: they leak, rock, or the head is measured bare' },
        ],
      },
    },
  ),
  step(
    'Valves out',
    'Compressor square on its retainer, its foot on the middle of the valve. Spring down only as far as both collets come free, then let up slowly. A burr at the collet groove is dressed before the stem is drawn through the guide. Each valve with its parts goes into the board at its place.',
    {
      onlyIf: [{ question: 'valves', oneOf: ['out'] }],
      tray: 'valve train',
      cautions: [
        caution(
          'springs under load',
          'A compressor that slips throws retainer and collets: face out of the line of the stem.',
        ),
        onlookersToo,
      ],
      photo: 'The board with every valve and its parts in their places',
      pieces: [
        piece('Valve', 4, 'head', { matchedSet: 'valves by place', why: 'seats in its own seat' }),
        piece('Collet', 8, 'valve stems', { why: 'two a valve; they fly and stick to magnets and fingers' }),
        piece('Retainer', 4, 'valve springs', { why: 'one a valve' }),
        piece('Valve spring', 4, 'head', { matchedSet: 'springs by valve', why: 'one a valve, the same end down' }),
        piece('Spring seat', 4, 'head', { why: 'thin, and stays in the oil of the head' }),
        piece('Stem seal', 4, 'guides', { oneTime: true, why: 'never used again' }),
      ],
    },
  ),
];

/** What the head is built up with before it goes on. */
export const valvesIn: readonly StepData[] = [
  step('Head ready', 'Seats and stems wiped, every oilway open, each valve’s parts at its place on the board.', {
    asks: {
      code: 'valves',
      words: 'Are the valves in?',
      choices: [
        { code: 'in', words: 'They stayed in' },
        { code: 'out', words: 'They go in now' },
      ],
    },
  }),
  step(
    'Valves in',
    'Spring seats first, new stem seals pushed on straight. Stem oiled, each valve into its own guide, close coils of the spring towards the head. Compressed until both collets sit; then the stem tapped once with a soft mallet under a rag. The second person looks at every collet.',
    {
      onlyIf: [{ question: 'valves', oneOf: ['out'] }],
      tray: 'valve train',
      secondPerson: true,
      cautions: [
        caution('springs under load', 'A collet that sits askew lets the spring go: face out of the line of the stem.'),
        caution('eyes', 'Eye protection, also when the stem is tapped.'),
      ],
      photo: 'Every retainer from above, both collets level',
    },
  ),
];
