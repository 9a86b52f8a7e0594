import {
  type FastenerFigures,
  type PlaceFigures,
  type ProofFigures,
  place,
  type RingFigures,
  type SheetFigures,
  type ValveFigures,
} from '../spec-sheet.ts';
import { balancerAndPumpFasteners, bottomEndFasteners } from './bottom-end-fasteners.ts';
import { fourStrokeDimensions } from './four-stroke-dimensions.ts';
import { type FourStrokeFigures, fourValves } from './four-stroke-figures.ts';
import { fourStrokeTopEndFasteners } from './top-end-fasteners.ts';

const places = (cylinder: 'aluminium alloy' | 'grey cast iron'): readonly PlaceFigures[] => [
  place('engine', 'Engine', null),
  place('cylinder', 'Cylinder', 'cylinder', cylinder, cylinder === 'aluminium alloy'),
  place('piston', 'Piston', null, 'aluminium alloy'),
  place('ring-top', 'Top ring', null, 'steel'),
  place('ring-second', 'Second ring', null, 'grey cast iron'),
  place('ring-oil', 'Oil ring', null, 'steel'),
  place('pin', 'Piston pin', null, 'steel'),
  place('rod', 'Connecting rod', null, 'steel'),
  place('crank', 'Crankshaft', 'case', 'steel'),
  place('head', 'Head', 'head', 'aluminium alloy'),
  ...fourValves.map(([code, name]) => place(`valve-${code}`, `Valve, ${name}`, null, 'steel')),
  place('springs-intake', 'Valve springs, intake', null, 'steel'),
  place('springs-exhaust', 'Valve springs, exhaust', null, 'steel'),
  place('cam-intake', 'Camshaft, intake', null, 'steel'),
  place('cam-exhaust', 'Camshaft, exhaust', null, 'steel'),
  place('cam-chain', 'Cam chain', null, 'steel'),
];

const rectangle = (x: number, y: number): readonly (readonly [number, number])[] => [
  [-x, y],
  [x, -y],
  [x, y],
  [-x, -y],
];

const fasteners = (headBolt: {
  readonly thread: string;
  readonly stages: FastenerFigures['stages'];
}): readonly FastenerFigures[] => [
  {
    code: 'head-bolts',
    name: 'Head bolts',
    thread: headBolt.thread,
    propertyClass: '10.9',
    condition: 'oiled',
    tool: 'hex 10',
    // Turned past yield by an angle, a bolt is used once.
    reuse: headBolt.stages.some((stage) => 'degrees' in stage) ? 'one-time' : 'inspect',
    positions: [...rectangle(52, 44), [0, 58], [0, -58]],
    stages: headBolt.stages,
    page: 'p. 30',
  },
  {
    code: 'cam-caps',
    name: 'Cam caps',
    thread: 'M6',
    propertyClass: '8.8',
    condition: 'oiled',
    tool: 'hex 5',
    reuse: 'reuse',
    positions: [
      [-12, 24],
      [12, -24],
      [12, 24],
      [-12, -24],
      [-36, 24],
      [36, -24],
      [36, 24],
      [-36, -24],
    ],
    stages: [{ newtonMetres: 6 }, { newtonMetres: 10 }],
    page: 'p. 31',
  },
  {
    code: 'cover-bolts',
    name: 'Valve cover bolts',
    thread: 'M6',
    propertyClass: '8.8',
    condition: 'dry',
    tool: 'hex 8',
    reuse: 'reuse',
    positions: rectangle(46, 38),
    stages: [{ newtonMetres: 8 }],
    page: 'p. 31',
  },
  {
    code: 'case-bolts',
    name: 'Case bolts',
    thread: 'M6',
    propertyClass: '8.8',
    condition: 'dry',
    tool: 'hex 8',
    reuse: 'reuse',
    positions: [
      [0, 60],
      [0, -60],
      [-60, 0],
      [60, 0],
      [-45, 45],
      [45, -45],
      [45, 45],
      [-45, -45],
      [-75, 70],
      [75, -70],
    ],
    stages: [{ newtonMetres: 6 }, { newtonMetres: 10 }],
    page: 'p. 33',
  },
];

const proofs: readonly ProofFigures[] = [
  {
    code: 'leak-down',
    name: 'Leak-down',
    dimension: 'leak-down',
    words: 'At top dead centre on compression, crank held; say where it leaks.',
    caution: 'The air turns the engine: hold the crank, hands clear.',
  },
  {
    code: 'first-start',
    name: 'First start',
    dimension: null,
    words: 'Oil pressure seen within 10 s, no leak, no noise, idle held for two minutes.',
    caution: 'Exhaust led outdoors, extinguisher at hand, nobody in line with the chain.',
  },
  {
    code: 'heat-cycle',
    name: 'Heat cycles',
    dimension: null,
    words: 'Three times warm and fully cold; levels, leaks and the bolts named in the manual checked each time.',
    caution: 'Open the cooling circuit only when cold.',
  },
];

/** The makers of these engines place the two compression rings; the rails go by the rule of thumb. */
const rings: readonly RingFigures[] = [
  { code: 'ring-top', name: 'Top ring', degrees: 45, mark: 'A' },
  { code: 'ring-second', name: 'Second ring', degrees: 225, mark: 'B' },
  { code: 'ring-oil-upper', name: 'Upper oil rail', part: 'rail' },
  { code: 'ring-oil-lower', name: 'Lower oil rail', part: 'rail' },
];
const ringZones = [
  { from: 350, to: 10, reason: 'thrust side, front' },
  { from: 170, to: 190, reason: 'thrust side, rear' },
  { from: 82, to: 98, reason: 'over the pin' },
  { from: 262, to: 278, reason: 'over the pin' },
];

export interface FourStrokeSheet {
  readonly note: string;
  readonly figures: FourStrokeFigures;
  readonly cooling: 'water' | 'air';
  readonly cylinder: 'aluminium alloy' | 'grey cast iron';
  readonly headBolt: { readonly thread: string; readonly stages: FastenerFigures['stages'] };
  readonly wanted: { readonly intake: number; readonly exhaust: number };
  readonly adjuster: { readonly shimDiameterMm: number } | { readonly screwPitchMm: number };
}

export function fourStrokeSheet(of: FourStrokeSheet): SheetFigures {
  const { adjuster } = of;
  const valves = fourValves.map(
    ([code, name, side]): ValveFigures => ({
      code,
      name,
      side,
      wantedMm: of.wanted[side],
      shim: 'shimDiameterMm' in adjuster ? { diameterMm: adjuster.shimDiameterMm, lowMm: 1.2, highMm: 3.5 } : null,
      screwPitchMm: 'screwPitchMm' in adjuster ? adjuster.screwPitchMm : null,
    }),
  );
  return {
    note: of.note,
    ringSeparationDegrees: 80,
    railOffsetDegrees: 40,
    places: places(of.cylinder),
    dimensions: fourStrokeDimensions(of.figures),
    fasteners: [
      ...fasteners(of.headBolt),
      ...fourStrokeTopEndFasteners({
        page: 'p. 31',
        cooling: of.cooling,
        adjuster: 'screwPitchMm' in adjuster ? 'screw' : 'shim',
      }),
      ...balancerAndPumpFasteners('p. 34'),
      ...bottomEndFasteners({ page: 'p. 34', clutchSprings: 6, clutchCoverBolts: 7, alternatorCoverBolts: 5 }),
    ],
    rings,
    ringZones,
    valves,
    proofs,
  };
}
