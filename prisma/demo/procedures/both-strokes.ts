import { caution, type PieceData, piece, plugThread, type StepData, step, wellBlown, where } from './procedure.ts';

/** What both kinds of engine have in common: making safe, draining, and what is seen in the bore. */

export const makeItSafe = (lift: string): StepData =>
  step(
    'Make it safe',
    'Engine cold to the hand. Fuel tap shut, tank off and away from the bench. Battery off, the negative lead first. Plug lead pulled and earthed. Stand blocked so that nothing can roll or tip.',
    {
      cautions: [
        caution(
          'fuel and solvent vapour',
          'No flame, no spark, no heater on; doors open. Fuel goes into a closed can. An injected engine’s line is under pressure: relieved as the manual says, a rag round the joint, eye protection.',
        ),
        caution('electricity', 'Negative lead off first, back on last: a spanner to the frame makes sparks.'),
        caution('lifting', lift),
      ],
    },
  );

export const coolantOut = step(
  'Coolant out',
  'Cap off first, then the drain screw. Catch and measure what comes out: less than the manual’s filling went somewhere. Look for oil in it.',
  {
    onlyIf: [{ fact: 'cooling', oneOf: ['water'] }],
    fastenerSet: 'coolant-drain-screw',
    cautions: [
      caution('hot coolant', 'Under pressure while it is hot: open the cap only when the engine is cold to the hand.'),
      caution(
        'used oil and coolant',
        'Coolant is poisonous and sweet to animals: collect it, hand it in by local rules.',
      ),
    ],
    pieces: [
      piece('Coolant drain screw', 1, 'water pump cover'),
      piece('Coolant drain washer', 1, 'under the drain screw', { oneTime: true, why: 'a crush washer seals once' }),
    ],
  },
);

export const coolantDrainIn = step(
  'Coolant drain screw in',
  'A new washer; started by hand, its thread is the pump’s aluminium.',
  { onlyIf: [{ fact: 'cooling', oneOf: ['water'] }], fastenerSet: 'coolant-drain-screw' },
);

export const drainPlugIn = step('Drain plug in', 'A new washer; thread and face wiped. Started by hand.', {
  fastenerSet: 'drain-plug',
  cautions: [
    caution('damage', 'Steel in the case’s aluminium: by the wrench to its figure, a pulled thread costs the case.'),
  ],
});

export const sparkPlugOut = (words: string): StepData =>
  step('Spark plug out', `Well blown clean before the plug is turned. ${words}`, {
    fastenerSet: 'spark-plug',
    cautions: [wellBlown, plugThread],
    pieces: [piece('Spark plug', 1, 'head')],
  });

/** Cold, and after everything that is turned by hand: an engine without its plug turns more lightly. */
export const sparkPlugIn = step(
  'Spark plug in',
  'Gap measured, thread clean, dry or as the manual says. By hand until it seats, then to its figure; lead on until it snaps home.',
  { fastenerSet: 'spark-plug', cautions: [plugThread] },
);

/** Before an engine is cranked or started again: what was taken off to make it safe. */
export const batteryOn = step(
  'Battery on',
  'Where it has one: positive lead first, negative last. Earth wire looked at once more. Ignition stays off.',
  {
    cautions: [
      caution('electricity', 'Negative lead last: a spanner to the frame makes sparks. No fuel open near it.'),
    ],
  },
);

/** What the first start needs, and what must not drip by then. */
export const tankOn = step(
  'Tank on',
  'Line pushed home and clamped, tap opened, every joint looked at for five minutes with the ignition off.',
  {
    cautions: [
      caution('fuel and solvent vapour', 'A drip is wiped up and dried before anything sparks; doors open, no flame.'),
      caution('lifting', 'A full tank is heavy and slips: filled only once it is on.'),
    ],
  },
);

export const coolantIn = (after: string): StepData =>
  step(
    'Coolant in and bled',
    `New mixture as the manual says, slowly, hoses squeezed until no bubble comes. ${after}`,
    {
      onlyIf: [{ fact: 'cooling', oneOf: ['water'] }],
      cautions: [caution('used oil and coolant', 'Wipe up what is spilt: it is poisonous, and slippery underfoot.')],
    },
  );

/** What the bore looks like, and what that obliges to, by what the bore is made of. */
export const boreSeen: readonly StepData[] = [
  step(
    'What the bore looks like',
    'Wipe it with a clean cloth and turn it to the light. Feel with a finger nail, not with a tool.',
    {
      photo: 'The bore all round, with the light along it',
      asks: {
        code: 'bore-seen',
        words: 'What is seen in the bore?',
        choices: [
          { code: 'sound', words: 'Cross-hatch or a smooth even face all round' },
          { code: 'scored', words: 'Scores a finger nail catches in, or seizure marks' },
          { code: 'through', words: 'Another metal shows through, or flakes' },
        ],
      },
    },
  ),
  ...where({ question: 'bore-seen', oneOf: ['scored', 'through'] }, [
    step(
      'Plated bore damaged: leave it alone',
      'No stone, no hone, no emery: a plated bore is replated or renewed, never cut to size. Wrap the cylinder, label it, and tell the lead before it goes on to the measuring bench.',
      {
        onlyIf: [{ fact: 'bore', oneOf: ['plated'] }],
        cautions: [
          caution(
            'plated-bore dust',
            'Dust of the plating harms the lungs: never scrape or sand it dry; wipe loose flakes up wet.',
          ),
          caution('cuts', 'Flaked plating is as sharp as glass: gloves.'),
        ],
      },
    ),
    step(
      'Iron bore damaged: mark where',
      'Mark height and side of the damage on the outside with chalk. The measuring bench tells whether the next oversize takes it out; the vendor bores to the piston in hand.',
      { onlyIf: [{ fact: 'bore', oneOf: ['not plated'] }] },
    ),
    step(
      'At its largest oversize already',
      'There is no size left to bore to: tell the lead that this needs another liner or cylinder before anybody quotes it.',
      {
        onlyIf: [
          { fact: 'bore', oneOf: ['not plated'] },
          { fact: 'size class', oneOf: ['+0.50'] },
        ],
      },
    ),
  ]),
];

export const covered = step(
  'Covered and counted',
  'A clean cover over every opening. Trays lidded and labelled, none left on the floor. What is loose and what is not torqued is said at the handover.',
  { photo: 'Trays as they go on, labels to be read' },
);

/** A bottom end that waits for its top end: open above, and the rod stands in the opening. */
export const coveredForTopEnd: StepData = {
  ...covered,
  words: `A rag round the rod in the case mouth, and onto the tally. ${covered.words}`,
  putIn: [{ name: 'Rag', count: 1, where: 'case mouth' }],
};

export const drainPieces: readonly PieceData[] = [
  piece('Drain plug', 1, 'case, underside'),
  piece('Drain plug washer', 1, 'case, underside', { oneTime: true, why: 'a crush washer seals once' }),
];

export const cleanFaces = step(
  'Gasket faces clean',
  'Old gasket off with a plastic or brass scraper, faces wiped, straight edge laid across. No wire wheel: what it throws off ends in the bearings.',
  {
    cautions: [
      caution(
        'fuel and solvent vapour',
        'Gasket remover and brake cleaner: no flame, doors open, gloves, never on hot metal; its smoke at a flame or a weld is poison.',
      ),
      caution('cuts', 'Push the scraper away from the other hand; the edges of head and cylinder cut too.'),
    ],
  },
);

export const cleanAndOiled = (passages: string): StepData =>
  step(
    'Clean and oiled',
    `Cylinder washed in hot soapy water with a brush until a white cloth stays white, dried, oiled at once: bare iron rusts in minutes. ${passages}`,
    {
      cautions: [
        caution('compressed air', 'Eye protection; never towards skin or anybody else. Low pressure for oilways.'),
        caution('fuel and solvent vapour', 'Solvent bath closed after use, no flame, ventilate.'),
        caution('plated-bore dust', 'What comes off a honed or plated bore is washed off, never blown off dry.'),
      ],
    },
  );

export const kitLaidOut = step(
  'Parts laid out against the job',
  'Every part of the kit out of its bag, beside the old one: same size, same shape, same grade letter. What is used once only is new: circlips, gaskets, crush washers, seals.',
);

export const firstRun = (leaks: string): readonly StepData[] => [
  step(
    'Idle and listen',
    `Warm up to a steady idle. Look along every joint with a lamp: ${leaks}. Listen with a rod at cover, cylinder and case.`,
    {
      cautions: [
        caution('hot parts', 'Pipe and cylinder burn within a minute: gloves, sleeves down.'),
        caution('other', 'Exhaust gas has no warning smell and kills: the hose stays on the pipe, doors stay open.'),
        caution('moving parts', 'Nothing loose near chain and sprocket; nobody in line with the chain.'),
      ],
      asks: {
        code: 'first-run',
        words: 'How did it run?',
        choices: [
          { code: 'well', words: 'Runs clean, no leak, no noise' },
          { code: 'leak', words: 'Something leaks' },
          { code: 'noise', words: 'A noise that should not be there' },
        ],
      },
    },
  ),
  step(
    'Leak: stopped, cold, mended',
    'Stop it now, mark where it comes from, and let it go cold before a bolt is touched. What is undone for it goes back on the tally as an opening of its own.',
    {
      onlyIf: [{ question: 'first-run', oneOf: ['leak'] }],
      cautions: [caution('hot coolant', 'Never chase a leak by undoing a cap or hose on a hot engine.')],
    },
  ),
  step(
    'Noise: stopped, and the lead told',
    'Kill it at once and do not start it again. Say where it came from and at what speed. The lead decides how far it is opened.',
    { onlyIf: [{ question: 'first-run', oneOf: ['noise'] }], secondPerson: true },
  ),
];
