import { backOn, caution, type PieceData, piece, type StepData, step } from './procedure.ts';

/** How a family's clutch is made. */
export interface ClutchWork {
  readonly springs: number;
  /** Friction plates; between them lies one steel plate less. */
  readonly frictions: number;
  readonly coverBolts: number;
  /** What else sits in or behind the cover and has to be thought of before it comes off, or goes on. */
  readonly behindCover: string;
}

const coverPieces = ({ coverBolts }: ClutchWork): readonly PieceData[] => [
  piece('Clutch cover bolt', coverBolts, 'clutch cover', { why: 'of several lengths: kept in a card by place' }),
  piece('Clutch cover dowel', 2, 'clutch cover or case', { why: 'two, each may stay in either part' }),
  piece('Clutch cover gasket', 1, 'clutch cover', { oneTime: true }),
  piece('Clutch cover', 1, 'case, right'),
];

const packPieces = ({ springs, frictions }: ClutchWork): readonly PieceData[] => [
  piece('Clutch spring bolt', springs, 'pressure plate', { why: 'one a spring' }),
  piece('Clutch spring', springs, 'pressure plate', {
    matchedSet: 'clutch springs',
    why: 'renewed together or not at all',
  }),
  piece('Pressure plate', 1, 'clutch'),
  piece('Lifter', 1, 'mainshaft', { why: 'it stays behind in the shaft’s bore' }),
  piece('Lifter bearing', 1, 'lifter', { why: 'its washer sticks to the pressure plate' }),
  piece('Friction plate', frictions, 'clutch', {
    matchedSet: 'clutch pack',
    why: 'in their order: the outermost may be of another kind',
  }),
  piece('Steel plate', frictions - 1, 'clutch', { matchedSet: 'clutch pack', why: 'one fewer than friction plates' }),
];

const basketPieces: readonly PieceData[] = [
  piece('Clutch nut', 1, 'mainshaft', { why: 'dished on one side: note which looks out' }),
  piece('Clutch lock washer', 1, 'under the clutch nut', {
    oneTime: true,
    why: 'its tab breaks when it is bent twice',
  }),
  piece('Clutch hub', 1, 'mainshaft'),
  piece('Clutch thrust washer', 2, 'both sides of the basket', {
    why: 'two; the inner one sticks to the bearing with oil',
  }),
  piece('Clutch basket', 1, 'mainshaft'),
  piece('Basket sleeve', 1, 'mainshaft'),
];

const primaryNutPieces: readonly PieceData[] = [
  piece('Primary gear nut', 1, 'crank, right', { why: 'it may turn the other way: the manual says' }),
  piece('Primary gear washer', 1, 'under the primary gear nut', { why: 'dished: its mark shows which way' }),
];
const primaryGearPieces: readonly PieceData[] = [
  piece('Primary gear', 1, 'crank, right'),
  piece('Primary gear key', 1, 'crank, right', { why: 'falls out of its slot with the gear' }),
];
const betweenGears = caution(
  'moving parts',
  'What is laid between gears draws fingers in: hands off before the bar is loaded.',
);

/** From the cover to the bare end of the crank. */
export const clutchOut = (of: ClutchWork): readonly StepData[] => [
  step(
    'Clutch cover off',
    `Bolts criss-cross, cover tapped at its lugs with a mallet, never levered at the face. ${of.behindCover}`,
    {
      fastenerSet: 'clutch-cover-bolts',
      tray: 'case',
      cautions: [caution('used oil and coolant', 'What stayed behind the cover runs out: gloves, a tray under it.')],
      pieces: coverPieces(of),
    },
  ),
  step(
    'Clutch springs and plates out',
    'Plates out as a pack, in their order, and kept on a wire. Wear grooves in the basket felt with a finger nail.',
    {
      fastenerSet: 'clutch-spring-bolts',
      tray: 'case',
      cautions: [caution('springs under load', 'Bolts a turn at a time, criss-cross, until no spring pushes.')],
      photo: 'The pack in its order, first plate outside',
      pieces: packPieces(of),
    },
  ),
  step(
    'Primary nut off',
    'While the basket still meshes: crank held by its own lock, or by a soft piece between primary gear and basket, never by the rod. Look in the manual which way it turns. The gear stays on until the basket is off.',
    { fastenerSet: 'primary-nut', tray: 'case', cautions: [betweenGears], pieces: primaryNutPieces },
  ),
  step(
    'Clutch hub and basket off',
    'Tab of the lock washer bent flat. Hub held with its own holder, nut off, then the basket with its sleeve. Count the thrust washers on the shaft and on the basket.',
    {
      fastenerSet: 'clutch-nut',
      tray: 'case',
      cautions: [
        caution(
          'cuts',
          'Holder and bar may slip off the hub: pull, do not push, nothing sharp where the hand would land.',
        ),
        caution('damage', 'A screwdriver in the basket or an impact wrench on the nut breaks fingers of the basket.'),
      ],
      pieces: basketPieces,
    },
  ),
  step('Primary gear off', 'Drawn off the crank by hand or with its puller, and the key out of its slot at once.', {
    tray: 'case',
    pieces: primaryGearPieces,
  }),
];

const coverOn = (of: ClutchWork): StepData =>
  step(
    'Clutch cover on',
    `Both dowels in, new gasket, bolts by their card. ${of.behindCover} Lever moved: it lifts and comes back.`,
    {
      fastenerSet: 'clutch-cover-bolts',
      tray: 'case',
      cautions: [
        caution(
          'damage',
          'A long bolt in a short hole cracks the case, a short one pulls its thread: all stand out alike before they are turned.',
        ),
      ],
      pieces: backOn(coverPieces(of)),
    },
  );

/** From the bare end of the crank to the cover; what lies behind the clutch is in by then. */
export const clutchIn = (of: ClutchWork): readonly StepData[] => [
  step(
    'Primary gear on',
    'Key in its slot, gear over it, its face the way it came off. The nut waits for the basket.',
    {
      tray: 'case',
      pieces: backOn(primaryGearPieces),
    },
  ),
  step(
    'Clutch basket and hub on',
    'Inner thrust washer, sleeve oiled, basket turned until its gear drops into mesh, outer thrust washer, hub. New lock washer; nut to its figure with the hub held, then the tab bent against a flat. The basket turns free with the hub held. The second person looks at washers and tab.',
    {
      fastenerSet: 'clutch-nut',
      tray: 'case',
      secondPerson: true,
      cautions: [
        caution(
          'damage',
          'A thrust washer forgotten or laid twice binds the basket: an engine that cannot be declutched runs away on its rider.',
        ),
        caution('cuts', 'Holder and bar may slip; the new tab is sharp.'),
      ],
      photo: 'The tab, bent against a flat of the nut',
      pieces: backOn(basketPieces),
    },
  ),
  step(
    'Primary nut pulled',
    'Washer with its mark outwards. Crank held by its own lock, or by a soft piece between primary gear and basket; nut to its figure, and the piece out again.',
    {
      fastenerSet: 'primary-nut',
      tray: 'case',
      cautions: [
        betweenGears,
        caution(
          'damage',
          'Tapers and threads as the manual says, oiled or dry: a figure for the one is wrong for the other.',
        ),
      ],
      pieces: backOn(primaryNutPieces),
    },
  ),
  step(
    'Clutch plates and springs in',
    'New friction plates soaked in the engine’s oil for as long as the manual says. A friction plate first and last, steel plates with their sharp edge the same way. Lifter and its bearing in before the pressure plate; springs all of one length.',
    {
      fastenerSet: 'clutch-spring-bolts',
      tray: 'case',
      cautions: [
        caution(
          'springs under load',
          'Bolts a turn at a time, criss-cross, until the plate sits; it must rise evenly when the lifter is pressed.',
        ),
        caution(
          'damage',
          'Spring bolts shear in their posts when they are pulled by feel: the small wrench, to the figure.',
        ),
      ],
      photo: 'The pressure plate seated all round, before the cover hides it',
      pieces: backOn(packPieces(of)),
    },
  ),
  coverOn(of),
];
