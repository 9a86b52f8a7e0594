import { alternatorIn, alternatorOut } from './alternator.ts';
import { cleanFaces, covered, coveredForTopEnd, kitLaidOut } from './both-strokes.ts';
import { caseClosed, caseSplit } from './case-halves.ts';
import { type ClutchWork, clutchIn, clutchOut } from './clutch.ts';
import {
  bearingsIn,
  bearingsOut,
  type CrankWork,
  crankFloatFelt,
  crankFloatProved,
  crankIn,
  crankMeasured,
  crankOut,
} from './crank.ts';
import { gearboxIn, gearboxOut, linkageIn, linkageOut, linkageWrong } from './gearbox.ts';
import {
  backOn,
  caution,
  manualDecides,
  type PieceData,
  type ProcedureData,
  piece,
  section,
  step,
} from './procedure.ts';

const clutch: ClutchWork = {
  springs: 5,
  frictions: 6,
  coverBolts: 8,
  behindCover: 'The water pump stays in the cover; its shaft seal is looked at for a run of coolant.',
};
const crank: CrankWork = {
  seals: 5,
  sealWords:
    'The crank’s two seals hold the crankcase’s pressure: one that draws air leans the mixture, and a lean two-stroke seizes.',
};
const caseBolts = 8;
const alternatorBolts = 4;

const kickPieces: readonly PieceData[] = [
  piece('Kick shaft', 1, 'case, right'),
  piece('Kick spring', 1, 'kick shaft', { why: 'its end sits in a hole of the case' }),
  piece('Kick idle gear', 1, 'countershaft'),
  piece('Kick idle washer', 2, 'both sides of the idle gear', { why: 'two; they stick to gear and case' }),
];

const kickOut = step(
  'Kick starter out',
  'End of the spring unhooked with pliers and let back slowly, then the shaft turned out of its stop.',
  {
    tray: 'case',
    cautions: [
      caution(
        'springs under load',
        'The spring whips round when it is unhooked: hold it with pliers, face away, eye protection.',
      ),
    ],
    photo: 'Which hole the spring’s end sits in',
    pieces: kickPieces,
  },
);

const kickIn = step(
  'Kick starter in',
  'Idle gear between its washers. Shaft in against its stop, spring wound by pliers into the hole of the photo. It comes back by itself.',
  {
    tray: 'case',
    cautions: [caution('springs under load', 'Wound against the hand: pliers that grip, face away, eye protection.')],
    pieces: backOn(kickPieces),
  },
);

/** Begins where the top end is off. */
export const twoStrokeCase: ProcedureData = {
  code: 'O125-CASE',
  name: 'Split the case, Ostrel 125 T',
  kind: 'strip',
  note: manualDecides,
  steps: [
    ...section('Right side', [...clutchOut(clutch), kickOut, linkageOut]),
    ...section('Left side', alternatorOut(alternatorBolts)),
    ...section('Case', [
      crankFloatFelt,
      caseSplit(caseBolts),
      ...gearboxOut,
      crankOut,
      ...bearingsOut(crank),
      crankMeasured,
      covered,
    ]),
  ],
};

const crankcaseTight = step(
  'Crank seals tried',
  'Case mouth and intake blanked off with plates, the crankcase under the manual’s low pressure; soap on both seals, the seam and the drain. A bubble at a seal is a seal to renew now, while it is easy.',
  {
    cautions: [caution('compressed air', 'Never above the pressure in the manual: it blows the crank seals out.')],
    asks: {
      code: 'crankcase',
      words: 'Does the crankcase hold?',
      choices: [
        { code: 'holds', words: 'It holds as the manual asks' },
        { code: 'leaks', words: 'It leaks at a seal or the seam' },
      ],
    },
  },
);

const crankcaseLeaks = step(
  'It leaks: mended before anything is built on it',
  'A seal is renewed from outside where it can be; a seam that leaks means that the halves come apart again. Tried once more, and the second person watches the needle.',
  {
    onlyIf: [{ question: 'crankcase', oneOf: ['leaks'] }],
    secondPerson: true,
    cautions: [
      caution(
        'damage',
        'Air drawn at a seal leans the mixture: it seizes without warning, and a locked wheel throws the rider.',
      ),
    ],
  },
);

/** From two bare halves to a bottom end that the top end can be built on. */
export const twoStrokeBottom: ProcedureData = {
  code: 'O125-BOTTOM',
  name: 'Assemble the bottom end, Ostrel 125 T',
  kind: 'assemble',
  note: manualDecides,
  steps: [
    ...section('Before a part goes in', [kitLaidOut, cleanFaces, ...bearingsIn(crank)]),
    ...section('Between the halves', [...crankIn, ...gearboxIn]),
    ...section('Case', [
      ...caseClosed({ bolts: caseBolts, between: 'bearings oiled, every end washer on its shaft, rod up' }),
      crankFloatProved,
      crankcaseTight,
      crankcaseLeaks,
    ]),
    ...section('Left side', alternatorIn(alternatorBolts)),
    ...section('Right side', [linkageIn, linkageWrong, kickIn, ...clutchIn(clutch), coveredForTopEnd]),
  ],
};
