import { batteryOn, coolantIn, firstRun, tankOn } from './both-strokes.ts';
import { fourStrokeAssemble } from './four-stroke-assemble.ts';
import { fourStrokeBottom } from './four-stroke-bottom.ts';
import { fourStrokeCase } from './four-stroke-case.ts';
import { fourStrokeStrip } from './four-stroke-strip.ts';
import {
  asBuilt,
  caution,
  cooledBy,
  type FourStrokeWork,
  manualDecides,
  type ProcedureData,
  plugThread,
  pulledThrough,
  section,
  step,
} from './procedure.ts';

const prove = (of: FourStrokeWork): ProcedureData => ({
  code: `${of.code}-PROVE`,
  name: `Prove, ${of.name}`,
  kind: 'prove',
  note: manualDecides,
  steps: [
    ...section('Filled and turned', [
      step('Fill', 'New oil to its mark, of the kind the manual names; a new filter is primed.', {
        cautions: [
          caution('used oil and coolant', 'What is spilt on the pipe burns at the first start: wipe it off now.'),
        ],
      }),
      coolantIn('Pressure tester on the filler: it holds for ten minutes or the leak is found.'),
      batteryOn,
      step('Turned over for oil', 'Plug out, kicked or cranked until oil is seen at the cams or the lamp goes out.', {
        cautions: [
          pulledThrough,
          caution('fuel and solvent vapour', 'Fuel off: mist blown out of the plug hole burns.'),
        ],
      }),
      step(
        'Leak-down and compression',
        'At top dead centre on compression, crank held; say where it leaks. Then the compression, throttle wide open. Plug in again by hand, and to its figure; lead on.',
        {
          fastenerSet: 'spark-plug',
          readings: asBuilt('leak-down', 'compression'),
          cautions: [
            pulledThrough,
            plugThread,
            caution(
              'compressed air',
              'The air turns the engine: air on slowly, hands clear, no spanner left on the crank.',
            ),
          ],
        },
      ),
    ]),
    ...section('First start', [
      tankOn,
      step(
        'First start',
        'Kill switch tried first. Oil pressure within 10 s or stop it. The second person stands at the extinguisher and the kill switch.',
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
        of.cooling === 'water'
          ? 'oil at gaskets and banjos, coolant at hose and pump, gas at the exhaust joint'
          : 'oil at gaskets and banjos, gas at the exhaust joint',
      ),
    ]),
    ...section('Heat cycles and handing back', [
      step(
        'Heat cycles',
        'Three times warm and fully cold, as long as the manual asks; levels and leaks looked at each time.',
        {
          cautions: [
            caution('hot parts', 'Fan on it, gloves, nothing that burns near the pipe.'),
            ...(of.cooling === 'water' ? [caution('hot coolant', 'The cooling circuit is opened only cold.')] : []),
          ],
        },
      ),
      step(
        'Check again',
        'Cold: levels, leaks, and only those bolts once more that the manual names. Lash again where the manual asks for it after the first heat.',
        {
          cautions: [caution('damage', 'A bolt that is pulled to an angle is never pulled a second time.')],
        },
      ),
      step(
        'Run-in written down',
        'What the owner may and may not do in the first hours, when it comes back for its check, written on the sheet and said at the counter.',
        {},
      ),
    ]),
  ],
});

export const fourStrokeProcedures = (of: FourStrokeWork): readonly ProcedureData[] =>
  [fourStrokeStrip(of), fourStrokeCase(of), fourStrokeBottom(of), fourStrokeAssemble(of), prove(of)].map((each) => ({
    ...each,
    steps: cooledBy(of.cooling, each.steps),
  }));
