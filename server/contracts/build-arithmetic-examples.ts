import type { CalculationKind } from '#domain/build/calculations/kinds.ts';
import type { Given } from '#domain/build/calculations/reading.ts';

const mm = (value: string) => ({ value, unit: 'mm' });
const cc = (value: string) => ({ value, unit: 'cm3' });
const deg = (value: string) => ({ value, unit: 'deg' });

const lifts = [
  ['-32', '0'],
  ['0', '1.62'],
  ['30', '5.05'],
  ['60', '8.10'],
  ['108', '9.80'],
  ['156', '8.10'],
  ['186', '5.05'],
  ['216', '1.62'],
  ['248', '0'],
] as const;

/** One body for each calculation that works: what the OpenAPI page shows and a test sends. */
export const calculationExamples: Readonly<Record<CalculationKind, Given>> = {
  displacement: { bore: mm('88.0'), stroke: mm('58.5'), cylinders: 1 },
  'compression-ratio': {
    bore: mm('88.0'),
    stroke: mm('58.5'),
    chamber: cc('23.4'),
    gasketThickness: mm('0.6'),
    gasketBore: mm('89.0'),
    deck: mm('0.25'),
    crown: cc('-1.2'),
    rodLength: mm('103'),
    intakeClosesAfterBottom: deg('68'),
    wantedRatio: 13,
  },
  'bore-comparison': {
    bore: mm('88.0'),
    stroke: mm('58.5'),
    clearanceVolume: cc('27.4'),
    sizes: [
      { name: '+0.50', bore: mm('88.50'), boreMost: mm('88.515'), pistonLeast: mm('88.45'), pistonMost: mm('88.46') },
      { name: 'big bore', bore: mm('92.00') },
    ],
  },
  'ring-gap': { bore: mm('88.0'), gap: mm('0.33'), boreAfter: mm('88.03') },
  'piston-motion': { stroke: mm('58.5'), rodLength: mm('103'), revolutionsPerMinute: 11_500, afterTop: deg('30') },
  'valve-to-piston': {
    stroke: mm('58.5'),
    rodLength: mm('103'),
    clearanceAtTop: mm('3.9'),
    valveAngle: deg('12'),
    lash: mm('0.13'),
    table: lifts.map(([at, lift]) => ({ at: deg(at), lift: mm(lift) })),
    at: deg('10'),
  },
  'cam-timing': {
    intakeOpensBeforeTop: deg('32'),
    intakeClosesAfterBottom: deg('68'),
    exhaustOpensBeforeBottom: deg('70'),
    exhaustClosesAfterTop: deg('30'),
  },
  'cam-points': {
    intakeDuration: deg('280'),
    exhaustDuration: deg('280'),
    intakeCentre: deg('108'),
    exhaustCentre: deg('110'),
  },
  'port-timing': {
    stroke: mm('54.5'),
    rodLength: mm('105'),
    exhaustHeight: mm('27.0'),
    transferHeight: mm('40.5'),
  },
  'port-heights': { stroke: mm('54.5'), rodLength: mm('105'), exhaustOpen: deg('190'), transferOpen: deg('128') },
  mixture: { ratio: 32, fuel: { value: '5', unit: 'L' } },
  coolant: { holds: { value: '1.2', unit: 'L' }, wantedStrength: 50, foundStrength: 30 },
  'oil-level': { tubeBore: mm('43.0'), rodDiameter: mm('12.0'), levelFound: mm('125'), levelWanted: mm('110') },
  'fill-by-weight': { density: 0.87, mass: 640 },
};
