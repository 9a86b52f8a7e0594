import { coolantOut, drainPieces, makeItSafe } from './both-strokes.ts';
import { asReceived, caution, piece, pulledThrough, type StepData, step, wellBlown } from './procedure.ts';

/** Taken in hand and made safe, with the question how far it is opened. */
export const inHand: readonly StepData[] = [
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
    'Plug well blown clean, plug out. Throttle wide open for the compression; leak-down at top dead centre on the compression stroke. Listen where the air goes: intake, exhaust, crankcase, coolant. Plug in again by hand, so that nothing falls in.',
    {
      readings: asReceived('compression', 'leak-down'),
      cautions: [
        pulledThrough,
        caution('fuel and solvent vapour', 'Fuel tap shut: mist blown out of the plug hole burns.'),
        wellBlown,
        caution(
          'compressed air',
          'The air turns the engine: air on slowly, hands clear, no spanner left on the crank.',
        ),
        caution(
          'hot parts',
          'If it was run to get here: plug and pipe burn, gloves. It ran outdoors, or with the exhaust led outdoors: its gas kills without a smell.',
        ),
      ],
    },
  ),
  makeItSafe('Engine on the bench with a hoist or two people; it is blocked before anybody lets go.'),
];

export const fluids: readonly StepData[] = [
  coolantOut,
  step('Drain', 'Oil out hand-warm at most, never hot. Look at it, rub it between finger and thumb.', {
    fastenerSet: 'drain-plug',
    cautions: [caution('used oil and coolant', 'Gloves: used oil harms the skin. Collect it by local rules.')],
    pieces: drainPieces,
  }),
  step('Filter out', 'Cover off over a tray, filter out. Cut open, its pleats unfolded on white paper.', {
    fastenerSet: 'filter-cover-bolts',
    photo: 'The filter’s pleats unfolded',
    cautions: [
      caution('used oil and coolant', 'Oil runs out behind the cover: gloves. The filter goes by local rules.'),
      caution('cuts', 'The filter’s cut ends are as sharp as a blade.'),
    ],
    pieces: [
      piece('Filter cover bolt', 2, 'case, right', { why: 'their threads sit in aluminium' }),
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
  }),
  step(
    'Metal or water in the oil: the lead is told',
    'Stop here. Bag the filter with the job’s number. Chips point to bearings, gears or the pump, water to gasket, pump seal or a crack: the lead says whether the case is split too, before the counter quotes.',
    { onlyIf: [{ question: 'oil', oneOf: ['metal', 'water'] }] },
  ),
  step(
    'Exhaust and intake off',
    'Exhaust nuts soaked first. Throttle body out of its boot with a twist; hoses marked by place.',
    {
      fastenerSet: 'exhaust-nuts',
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
