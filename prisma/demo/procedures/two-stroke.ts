import { batteryOn, coolantIn, firstRun, tankOn } from './both-strokes.ts';
import { asBuilt, caution, manualDecides, type ProcedureData, plugThread, section, step } from './procedure.ts';
import { twoStrokeAssemble } from './two-stroke-assemble.ts';
import { twoStrokeBottom, twoStrokeCase } from './two-stroke-case.ts';
import { twoStrokeStrip } from './two-stroke-strip.ts';

const prove: ProcedureData = {
  code: 'O125-PROVE',
  name: 'Prove, Ostrel 125 T',
  kind: 'prove',
  note: manualDecides,
  steps: [
    ...section('Tight and filled', [
      step(
        'Crankcase leak-down',
        'Intake and exhaust blanked off, pressure held for six minutes; then under vacuum where the manual asks. Say where it leaks.',
        {
          readings: asBuilt('leak-down'),
          cautions: [
            caution('compressed air', 'Never above the pressure in the manual: it blows the crank seals out.'),
          ],
        },
      ),
      step('Gearbox oil in', 'Of the kind and to the mark of the manual.', {}),
      coolantIn('Levels marked on the tank with a pen.'),
      step('Fuel mixed', 'Fresh fuel, oil in the share the manual names for running in, shaken in a marked can.', {
        cautions: [
          caution(
            'fuel and solvent vapour',
            'Mixed outdoors or under the fan, no flame; can closed and away from the stand.',
          ),
        ],
      }),
    ]),
    ...section('First start', [
      batteryOn,
      tankOn,
      step(
        'First start',
        'Kill switch tried first. Throttle shut until it runs. A piece of board lies ready to close the carburettor’s mouth: an engine that draws air runs away, whatever the switch says. The second person stands at the extinguisher and the kill switch.',
        {
          cautions: [
            caution(
              'first start',
              'Doors open and the exhaust led outdoors by a hose: its gas kills without a smell. Extinguisher at hand, nobody in line with the chain.',
            ),
            caution('moving parts', 'Sleeves, hair and rags clear of chain and sprocket.'),
          ],
          secondPerson: true,
        },
      ),
      ...firstRun(
        'gas at the head and the pipe, coolant at head and pump, air drawn at base and boot (the idle climbs)',
      ),
    ]),
    ...section('Heat cycles and handing back', [
      step('Heat cycles', 'Three times warm and fully cold, as long as the manual asks; coolant topped up each time.', {
        cautions: [
          caution('hot parts', 'Fan on it, gloves, nothing that burns near the pipe.'),
          caution('hot coolant', 'The cooling circuit is opened only cold.'),
        ],
      }),
      step(
        'Head nuts and plug looked at cold',
        'Only those nuts once more that the manual names. Plug out: its colour tells the mixture; too pale is too lean, and a lean two-stroke seizes. In again by hand, and to its figure.',
        {
          fastenerSet: 'spark-plug',
          cautions: [plugThread],
          photo: 'The plug’s insulator in daylight',
        },
      ),
      step(
        'Run-in written down',
        'Mixture, speed and hours of the run-in, when it comes back for its check, written on the sheet and said at the counter.',
        {},
      ),
    ]),
  ],
};

export const twoStrokeProcedures: readonly ProcedureData[] = [
  twoStrokeStrip,
  twoStrokeCase,
  twoStrokeBottom,
  twoStrokeAssemble,
  prove,
];
