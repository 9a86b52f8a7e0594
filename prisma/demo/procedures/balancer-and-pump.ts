import { backOn, caution, type PieceData, piece, pulledThrough, type StepData, step, where } from './procedure.ts';

/** What a four-stroke single has beside the crank: its balancer, its oil pump and its timing chain. */

const balancerDrive: readonly PieceData[] = [
  piece('Balancer nut', 1, 'balancer shaft'),
  piece('Balancer lock washer', 1, 'under the balancer nut', {
    oneTime: true,
    why: 'its tab breaks when it is bent twice',
  }),
  piece('Balancer gear', 1, 'balancer shaft', { why: 'its mark times it to the crank' }),
  piece('Balancer key', 1, 'balancer shaft', { why: 'falls out of its slot with the gear' }),
];
const balancerShaft: readonly PieceData[] = [
  piece('Balancer shaft', 1, 'case'),
  piece('Balancer washer', 1, 'balancer shaft', { why: 'sticks to the bearing with oil' }),
];
const pump: readonly PieceData[] = [
  piece('Oil pump screw', 3, 'oil pump cover', { why: 'small and of one length; one may stay in the oil' }),
  piece('Oil pump cover', 1, 'case, right'),
  piece('Oil pump rotor', 2, 'oil pump', {
    matchedSet: 'pump rotors',
    why: 'inner and outer run as a pair, marks the same way',
  }),
  piece('Oil pump pin', 1, 'oil pump shaft', { why: 'loose in its hole' }),
  piece('Oil pump shaft', 1, 'oil pump'),
  piece('Oil pump gear', 1, 'oil pump shaft'),
];
const strainer: readonly PieceData[] = [piece('Oil strainer', 1, 'sump', { why: 'slides in one way only' })];
const chain: readonly PieceData[] = [
  piece('Cam chain', 1, 'crank, left'),
  piece('Tensioner blade', 1, 'chain tunnel'),
  piece('Tensioner blade pin', 1, 'case, left', { why: 'held by the cover alone' }),
  piece('Chain guide', 1, 'chain tunnel'),
];

export const pumpOut = step(
  'Oil pump off',
  'Gear, shaft and pin first, then the cover; rotors slid out together, their faces marked with a pen.',
  {
    fastenerSet: 'oil-pump-screws',
    tray: 'case',
    cautions: [caution('used oil and coolant', 'It empties itself: gloves, a rag under it.')],
    photo: 'The rotors’ marks',
    pieces: pump,
  },
);

export const balancerDriveOut = step(
  'Balancer gear off',
  'Crank and balancer at their marks first, and the marks seen. Tab bent flat; held by a soft piece between its gear and the crank’s, nut off, gear drawn straight, key out of its slot.',
  {
    fastenerSet: 'balancer-nut',
    tray: 'case',
    cautions: [
      pulledThrough,
      caution(
        'moving parts',
        'What is laid between gears draws fingers in: hands off before the bar is loaded. The weight swings over when the gear lets go: fingers out of the case.',
      ),
    ],
    photo: 'Both marks, level',
    pieces: balancerDrive,
  },
);

export const chainOut = step(
  'Cam chain and blades out',
  'Rag out of the tunnel and off the tally. Chain marked for its running direction with a pen, off the crank, blades up through the tunnel.',
  {
    tray: 'case',
    photo: 'The mark on the chain, and how the blade stands on its pin',
    pieces: chain,
  },
);

export const balancerOut: readonly StepData[] = [
  step('Balancer out', 'Lifted out of its bearings with its washer; spun on two fingers it shows a bent end.', {
    tray: 'case',
    cautions: [caution('lifting', 'Heavier than it looks, all on one side: a hand under the weight.')],
    pieces: balancerShaft,
  }),
  step('Sump and strainer looked at', 'Strainer drawn, sump wiped out over white paper.', {
    tray: 'case',
    pieces: strainer,
    cautions: [caution('cuts', 'Chips in the sludge: gloves, a brush and not a finger.')],
    photo: 'What was in strainer and sump, on white paper',
    asks: {
      code: 'sump',
      words: 'What lies in strainer and sump?',
      choices: [
        { code: 'clean', words: 'Sludge and fine grey, nothing that glitters' },
        { code: 'chips', words: 'Chips, flakes or a broken piece' },
      ],
    },
  }),
  ...where({ question: 'sump', oneOf: ['chips'] }, [
    step(
      'Chips: where from, and the lead told',
      'A magnet parts steel from aluminium; colour and shape tell teeth, cage, bearing shell or piston. Bagged with the job’s number. The pump is opened, every oilway and cooler flushed or renewed: what is left of it goes through the new bearings first.',
      { secondPerson: true },
    ),
  ]),
];

export const balancerIn = step(
  'Balancer in',
  'Bearings oiled, washer on, shaft in with its weight away from the rod. It turns free.',
  {
    tray: 'case',
    cautions: [
      caution('lifting', 'All its weight is on one side: a hand under it.'),
      caution('moving parts', 'The weight swings over by itself: fingers out of the case.'),
    ],
    pieces: backOn(balancerShaft),
  },
);

export const strainerIn = step('Strainer in', 'Washed, held to the light, slid home the one way it goes.', {
  tray: 'case',
  cautions: [caution('fuel and solvent vapour', 'Washed in the closed bath, no flame, gloves.')],
  pieces: backOn(strainer),
});

export const balancerTimed = step(
  'Balancer on its mark',
  'Crank at its mark, weight turned until both marks meet, key in, gear on. New lock washer; held as when it came off, nut to its figure, tab bent. Two turns by hand: the marks meet again. The second person reads both marks aloud.',
  {
    fastenerSet: 'balancer-nut',
    tray: 'case',
    secondPerson: true,
    cautions: [
      pulledThrough,
      caution(
        'damage',
        'A tooth out, the balancer shakes with the crank: it breaks the frame, or its own shaft against the web.',
      ),
      caution('cuts', 'The new tab is sharp.'),
    ],
    photo: 'Crank mark and balancer mark, level, and the tab bent',
    pieces: backOn(balancerDrive),
  },
);

export const chainIn = step(
  'Cam chain and blades in',
  'Chain over the crank the way its mark runs, hung on a wire; blade on its pin, guide in its foot.',
  {
    tray: 'case',
    cautions: [
      caution('damage', 'A chain that bunches at the crank breaks the case when it is turned: kept taut by hand.'),
    ],
    pieces: backOn(chain),
  },
);

export const pumpIn = step(
  'Oil pump on, primed',
  'Rotors in with their marks as on the photo, oiled; pin through the shaft, cover on, gear on. Filled with clean oil and turned until it comes out of the oilway.',
  {
    fastenerSet: 'oil-pump-screws',
    tray: 'case',
    cautions: [
      caution('damage', 'A dry pump draws no oil at the first start; a pin left out and it never turns.'),
      caution('used oil and coolant', 'Wipe up what runs over: slippery underfoot.'),
    ],
    photo: 'Oil standing in the oilway',
    pieces: backOn(pump),
  },
);
