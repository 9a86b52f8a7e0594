import type { QuantityKind } from '../../server/domain/units/quantity.ts';

export interface DemoInstrument {
  readonly code: string;
  readonly name: string;
  readonly what: string;
  readonly kind: QuantityKind;
  readonly unit: string;
  readonly decimals: number;
  /** In `unit`, as are all that follow. */
  readonly range: readonly [number, number];
  readonly resolution: number;
  readonly mpe: number;
  /** Standard deviation of one reading with its degrees of freedom, from the shop's own gauge study. */
  readonly repeatability: readonly [number, number] | null;
  readonly zeroError: number;
  readonly master: string;
  readonly masterU: number;
  /** Working days before (−) or after (+) the anchor. */
  readonly calibrated: number;
  readonly due: number;
  readonly blades?: readonly number[];
}

type Length = Omit<DemoInstrument, 'kind' | 'unit' | 'decimals' | 'zeroError' | 'calibrated' | 'due'> &
  Partial<Pick<DemoInstrument, 'zeroError' | 'decimals' | 'calibrated' | 'due'>>;

const lengthGauge = (gauge: Length): DemoInstrument => ({
  kind: 'length',
  unit: 'mm',
  decimals: 3,
  zeroError: 0,
  calibrated: -120,
  due: 140,
  ...gauge,
});

const micrometer = (code: string, low: number, zeroError = 0): DemoInstrument =>
  lengthGauge({
    code,
    name: `Micrometer ${low}–${low + 25}`,
    what: 'micrometer',
    range: [low, low + 25],
    resolution: 0.001,
    mpe: 0.002,
    repeatability: [0.0008, 45],
    zeroError,
    master: low === 0 ? 'anvils closed' : `setting rod ${low}.000`,
    masterU: 0.0005,
  });

const fineBlades = [
  0.02, 0.03, 0.04, 0.05, 0.06, 0.07, 0.08, 0.09, 0.1, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16, 0.17, 0.18, 0.19, 0.2, 0.22,
  0.25, 0.28, 0.3, 0.33, 0.36, 0.38, 0.4, 0.42, 0.45, 0.48, 0.5, 0.52, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.9, 1,
];

export const demoInstruments: readonly DemoInstrument[] = [
  micrometer('MI-1', 0),
  { ...micrometer('MI-2', 25, 0.002), calibrated: -290, due: -30 },
  micrometer('MI-3', 50, 0.001),
  micrometer('MI-4', 75),
  micrometer('MI-5', 25),
  lengthGauge({
    code: 'BG-1',
    name: 'Dial bore gauge 35–60',
    what: 'bore gauge',
    range: [35, 60],
    resolution: 0.001,
    mpe: 0.003,
    repeatability: [0.0012, 60],
    master: 'setting ring 54.200',
    masterU: 0.0006,
  }),
  lengthGauge({
    code: 'BG-2',
    name: 'Dial bore gauge 50–100',
    what: 'bore gauge',
    range: [50, 100],
    resolution: 0.001,
    mpe: 0.003,
    repeatability: [0.0012, 60],
    master: 'setting ring 88.000',
    masterU: 0.0006,
  }),
  lengthGauge({
    code: 'SH-1',
    name: 'Small-hole gauge, read by MI-1',
    what: 'small-hole gauge',
    range: [3, 30],
    resolution: 0.001,
    mpe: 0.003,
    repeatability: [0.0015, 30],
    master: 'setting ring 20.000',
    masterU: 0.0006,
  }),
  lengthGauge({
    code: 'DI-1',
    name: 'Dial indicator',
    what: 'dial indicator',
    range: [0, 10],
    resolution: 0.001,
    mpe: 0.003,
    repeatability: [0.0015, 30],
    master: '',
    masterU: 0,
  }),
  lengthGauge({
    code: 'CA-1',
    name: 'Caliper 150',
    what: 'caliper',
    range: [0, 200],
    resolution: 0.01,
    mpe: 0.02,
    repeatability: [0.008, 30],
    master: 'jaws closed',
    masterU: 0,
    decimals: 2,
  }),
  lengthGauge({
    code: 'FE-1',
    name: 'Feeler set',
    what: 'feeler set',
    range: [0, 3],
    resolution: 0.01,
    mpe: 0.004,
    repeatability: null,
    master: '',
    masterU: 0,
    decimals: 2,
    blades: fineBlades,
  }),
  lengthGauge({
    code: 'FE-2',
    name: 'Long feelers, for the straightedge',
    what: 'feeler set',
    range: [0, 0.5],
    resolution: 0.01,
    mpe: 0.003,
    repeatability: null,
    master: '',
    masterU: 0,
    decimals: 2,
    blades: [0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1],
  }),
  lengthGauge({
    code: 'SE-1',
    name: 'Straightedge 300',
    what: 'straightedge',
    range: [0, 300],
    resolution: 0.001,
    mpe: 0.003,
    repeatability: null,
    master: 'surface plate',
    masterU: 0,
  }),
  lengthGauge({
    code: 'HAND',
    name: 'By hand',
    what: 'by hand',
    range: [0, 1],
    resolution: 0.001,
    mpe: 0,
    repeatability: null,
    master: '',
    masterU: 0,
    decimals: 0,
  }),
  {
    code: 'TW-1',
    name: 'Torque wrench 2–10',
    what: 'torque wrench',
    kind: 'torque',
    unit: 'N.m',
    decimals: 1,
    range: [2, 10],
    resolution: 0.1,
    mpe: 0.6,
    repeatability: null,
    zeroError: 0,
    master: '',
    masterU: 0,
    calibrated: -60,
    due: 200,
  },
  {
    code: 'TW-2',
    name: 'Torque wrench 10–60',
    what: 'torque wrench',
    kind: 'torque',
    unit: 'N.m',
    decimals: 0,
    range: [12, 60],
    resolution: 1,
    mpe: 2.4,
    repeatability: null,
    zeroError: 0,
    master: '',
    masterU: 0,
    calibrated: -60,
    due: 85,
  },
  {
    code: 'TW-3',
    name: 'Torque wrench 40–200',
    what: 'torque wrench',
    kind: 'torque',
    unit: 'N.m',
    decimals: 0,
    range: [40, 200],
    resolution: 1,
    mpe: 8,
    repeatability: null,
    zeroError: 0,
    master: '',
    masterU: 0,
    calibrated: -60,
    due: 85,
  },
  {
    code: 'CG-1',
    name: 'Compression gauge',
    what: 'compression gauge',
    kind: 'pressure',
    unit: 'kPa',
    decimals: 0,
    range: [0, 2_000],
    resolution: 10,
    mpe: 20,
    repeatability: [8, 20],
    zeroError: 0,
    master: '',
    masterU: 0,
    calibrated: -100,
    due: 160,
  },
  {
    code: 'LD-1',
    name: 'Leak-down gauge',
    what: 'leak-down gauge',
    kind: 'ratio',
    unit: '%',
    decimals: 1,
    range: [0, 100],
    resolution: 0.5,
    mpe: 1,
    repeatability: [0.3, 20],
    zeroError: 0,
    master: 'closed cock',
    masterU: 0,
    calibrated: -100,
    due: 160,
  },
  {
    code: 'SP-1',
    name: 'Spring tester',
    what: 'spring tester',
    kind: 'force',
    unit: 'N',
    decimals: 1,
    range: [0, 500],
    resolution: 0.5,
    mpe: 2,
    repeatability: [0.6, 20],
    zeroError: 0,
    master: 'test weight 200 N',
    masterU: 0.1,
    calibrated: -100,
    due: 160,
  },
];

/** ± of a feeler blade, nm: the thick ones are made less exactly. */
export const bladeTolerance = (thicknessMm: number): number => (thicknessMm <= 0.2 ? 2_000 : 3_000);
