import type { VendorKey } from './bays.ts';
import type { FamilyCode } from './families/families.ts';

export interface DemoPart {
  readonly number: string;
  readonly name: string;
  readonly family: FamilyCode | null;
  readonly place: string | null;
  readonly sizeClass: string | null;
  readonly grade: string;
  readonly shimMm: number | null;
  readonly shimDiameterMm: number | null;
  readonly oneTime: boolean;
  /** Code of the set on its family's sheets that it is one fastener of. */
  readonly fastenerSet?: string;
  /** Whole euro cents. */
  readonly price: number;
  readonly reorder: number;
  /** Aisle of its bins; the walk goes A, B, C, D, S. */
  readonly aisle: 'A' | 'B' | 'C' | 'D' | 'S';
  readonly vendor: VendorKey;
  /** Deliveries over the two years, and pieces in each. */
  readonly deliveries: number;
  readonly lot: number;
  /** How many a pack of its vendor has; left out: sold one by one. */
  readonly pack?: number;
  /** Marks that its deliveries bear by turns; left out: none. */
  readonly lotGrades?: readonly [string, ...string[]];
}

type Options = Partial<
  Pick<
    DemoPart,
    | 'place'
    | 'sizeClass'
    | 'grade'
    | 'oneTime'
    | 'fastenerSet'
    | 'reorder'
    | 'vendor'
    | 'deliveries'
    | 'lot'
    | 'pack'
    | 'lotGrades'
  >
>;
type Line = readonly [suffix: string, name: string, price: number, aisle: DemoPart['aisle'], options?: Options];

const plain = {
  place: null,
  sizeClass: null,
  grade: '',
  shimMm: null,
  shimDiameterMm: null,
  oneTime: false,
  reorder: 1,
  vendor: 'makers',
  deliveries: 2,
  lot: 2,
} as const;
const used = { deliveries: 8, lot: 4, reorder: 2 } as const;
const once = { ...used, oneTime: true } as const;

const ofFamily = (family: FamilyCode, lines: readonly Line[]): readonly DemoPart[] =>
  lines.map(([suffix, name, price, aisle, options]) => ({
    ...plain,
    number: `${family}-${suffix}`,
    name,
    family,
    price,
    aisle,
    ...options,
  }));

const everyEngine: readonly Line[] = [
  ['R', 'Ring set', 6_850, 'C', { ...used, place: 'ring-top' }],
  ['PP', 'Piston pin', 2_240, 'C', { ...used, place: 'pin', lotGrades: ['A', 'B'] }],
  ['CL', 'Circlip', 210, 'A', { ...once, lot: 12, pack: 2 }],
  ['GT', 'Top gasket set', 7_420, 'D', { ...once, vendor: 'gaskets' }],
  ['HG', 'Head gasket', 3_310, 'D', { ...once, vendor: 'gaskets' }],
  ['BG', 'Base gasket', 1_190, 'D', { ...once, vendor: 'gaskets' }],
  ['CG', 'Case gasket', 1_870, 'D', { oneTime: true, vendor: 'gaskets' }],
  ['CY', 'Cylinder', 48_900, 'C', { place: 'cylinder', deliveries: 1, lot: 1 }],
  ['RK', 'Connecting rod set', 18_700, 'C', { place: 'rod', deliveries: 1 }],
  ['CS', 'Crank seal set', 2_950, 'D', { oneTime: true, vendor: 'gaskets' }],
  ['SP', 'Spark plug', 1_150, 'A', { deliveries: 5, lot: 6, reorder: 3 }],
  ['CP', 'Clutch plate set', 11_600, 'B'],
  ['CSP', 'Clutch spring set', 2_300, 'B'],
  ['DW', 'Cylinder dowel', 340, 'A', { vendor: 'fasteners', lot: 6 }],
  ['HD', 'Head dowel', 340, 'A', { vendor: 'fasteners', lot: 6 }],
];

const fourStroke: readonly Line[] = [
  ['VI', 'Valve, intake', 5_480, 'B', { place: 'valve-in-l', lot: 3 }],
  ['VE', 'Valve, exhaust', 6_120, 'B', { place: 'valve-ex-l', lot: 4, deliveries: 3 }],
  ['VG', 'Valve guide', 1_980, 'B', { lot: 4 }],
  ['SI', 'Valve spring set, intake', 3_400, 'B', { place: 'springs-intake' }],
  ['SE', 'Valve spring set, exhaust', 3_400, 'B', { place: 'springs-exhaust' }],
  ['CC', 'Cam chain', 4_650, 'B', { place: 'cam-chain', deliveries: 5, lot: 2 }],
  ['TE', 'Chain tensioner', 5_950, 'B'],
  ['CGD', 'Chain guide', 2_680, 'B'],
  ['CAI', 'Camshaft, intake', 21_900, 'C', { place: 'cam-intake', deliveries: 1, lot: 1 }],
  ['CAE', 'Camshaft, exhaust', 21_900, 'C', { place: 'cam-exhaust', deliveries: 1, lot: 1 }],
  ['VC', 'Cover gasket', 1_420, 'D', { ...once, vendor: 'gaskets' }],
  ['HB', 'Head bolt', 460, 'A', { vendor: 'fasteners', lot: 12, fastenerSet: 'head-bolts' }],
  ['TG', 'Tensioner gasket', 380, 'D', { ...once, vendor: 'gaskets' }],
  ['OF', 'Oil filter', 980, 'A', { deliveries: 8, lot: 4, reorder: 3, oneTime: true }],
  ['OP', 'Oil pump rotor set', 5_300, 'C', { deliveries: 1 }],
];

const seals: Line = ['VS', 'Valve-stem seal', 390, 'B', { ...once, lot: 16, pack: 4, vendor: 'gaskets' }];
const bearings: Line = ['CB', 'Crank bearing set', 14_800, 'C', { place: 'crank', deliveries: 2, lot: 1 }];
const piston = (grade: string, size: string, price: number): Line => [
  `P-${grade}`,
  `Piston, ${size} grade ${grade}`,
  price,
  'C',
  { ...used, place: 'piston', sizeClass: grade, grade },
];

const haldenParts = (family: FamilyCode, size: readonly [string, string]): readonly DemoPart[] =>
  ofFamily(family, [
    piston('A', size[0], 16_900),
    piston('B', size[1], 16_900),
    ...everyEngine,
    ...fourStroke,
    seals,
    bearings,
    ['WP', 'Water pump seal', 1_340, 'D', { oneTime: true, vendor: 'gaskets' }],
    ['TH', 'Thermostat', 2_150, 'D'],
  ]);

const torvikParts = ofFamily('T615', [
  ...(['standard', '+0.25', '+0.50'] as const).map(
    (size): Line => [
      `P-${size === 'standard' ? 'S' : size.slice(1)}`,
      `Piston, ${size}`,
      17_800,
      'C',
      { ...used, deliveries: size === 'standard' ? 8 : 3, place: 'piston', sizeClass: size },
    ],
  ),
  ...(['+0.25', '+0.50'] as const).map(
    (size): Line => [
      `R-${size.slice(1)}`,
      `Ring set, ${size}`,
      7_250,
      'C',
      { place: 'ring-top', sizeClass: size, deliveries: 3 },
    ],
  ),
  ...everyEngine,
  ...fourStroke,
  // None ever came in: what an engine waits for without a date, and seals that are on their way.
  ['CB', 'Crank bearing set', 15_600, 'C', { place: 'crank', deliveries: 0, lot: 0 }],
  ['VS', 'Valve-stem seal', 420, 'B', { ...once, deliveries: 7, lot: 8, pack: 4, vendor: 'gaskets' }],
  ['AS', 'Adjusting screw with nut', 560, 'B', { lot: 8 }],
]);

const ostrelParts = ofFamily('O125', [
  piston('A', '54.155', 9_800),
  piston('B', '54.145', 9_800),
  ...everyEngine,
  bearings,
  ['SB', 'Small-end bearing', 1_480, 'B', { ...used, place: 'rod' }],
  ['RP', 'Reed petal set', 4_300, 'B', { place: 'reed-block', deliveries: 4 }],
  ['RG', 'Reed gasket', 290, 'D', { ...once, vendor: 'gaskets' }],
  ['OR', 'Head o-ring set', 860, 'D', { ...once, vendor: 'gaskets' }],
  ['WP', 'Water pump seal', 1_240, 'D', { oneTime: true, vendor: 'gaskets' }],
  ['HN', 'Head nut', 210, 'A', { vendor: 'fasteners', lot: 12, fastenerSet: 'head-nuts' }],
  ['PS', 'Pipe spring', 320, 'A', { lot: 6, vendor: 'fasteners' }],
]);

const hardware: readonly DemoPart[] = (
  [
    ['W-10', 'Crush washer 10', 45, 60, 5, 60],
    ['W-12', 'Crush washer 12', 50, 12, 5, 40],
    ['W-14', 'Crush washer 14', 55, 20, 4, 40],
    ['B-6-20', 'Bolt M6 × 20, flanged', 60, 20, 3, 50],
    ['B-6-30', 'Bolt M6 × 30, flanged', 65, 20, 3, 50],
    ['B-6-45', 'Bolt M6 × 45, flanged', 75, 20, 3, 50],
    ['B-8-25', 'Bolt M8 × 25, flanged', 90, 10, 3, 30],
    ['N-8', 'Flange nut M8', 40, 10, 3, 40],
    ['CS-6', 'Cover bolt seal', 180, 12, 5, 24],
    ['HC-20', 'Hose clamp 16–25', 130, 10, 3, 20],
    ['OIL-1', 'Engine oil, 1 L', 1_250, 10, 8, 24],
    ['COOL-1', 'Coolant, 1 L', 780, 6, 8, 12],
    ['LOCK-M', 'Locking compound, medium, 10 mL', 940, 2, 4, 3],
    ['RAG', 'Rag, lint-free, pack', 690, 2, 6, 5],
    ['CLEAN', 'Contact cleaner, 500 mL', 820, 4, 6, 8],
  ] as const
).map(([number, name, price, reorder, deliveries, lot]) => ({
  ...plain,
  number,
  name,
  family: null,
  price,
  aisle: 'A' as const,
  vendor: 'fasteners' as const,
  reorder,
  deliveries,
  lot,
  oneTime: number.startsWith('W-') || number === 'CS-6',
  ...(number.startsWith('W-') ? { pack: 10 } : number === 'OIL-1' ? { pack: 12 } : {}),
}));

/** Two diameters, 1.20 to 3.50 mm in steps of 0.05. */
const shims: readonly DemoPart[] = ([9.5, 7.5] as const).flatMap((diameter) =>
  Array.from({ length: 47 }, (_, index): DemoPart => {
    const hundredths = 120 + index * 5;
    const common = hundredths >= 190 && hundredths <= 290;
    return {
      ...plain,
      number: `S${diameter * 10}-${hundredths}`,
      name: `Shim ${(hundredths / 100).toFixed(2)}, ${diameter} mm`,
      family: null,
      shimMm: hundredths / 100,
      shimDiameterMm: diameter,
      price: 620,
      aisle: 'S',
      vendor: 'fasteners',
      reorder: common ? 3 : 1,
      deliveries: common ? 3 : 1,
      lot: common ? 5 : 3,
    };
  }),
);

/** Parts whose makers replaced them; some of each still lie on the shelf. */
const replaced: readonly DemoPart[] = [
  ...ofFamily('T615', [['TE-1', 'Chain tensioner, first pattern', 5_400, 'B', { reorder: 0, deliveries: 1 }]]),
  ...ofFamily('H355', [
    [
      'WP-1',
      'Water pump seal, single lip',
      1_180,
      'D',
      { reorder: 0, deliveries: 1, oneTime: true, vendor: 'gaskets' },
    ],
  ]),
];

/** What replaced them: either fits, or only the new one is fitted. */
export const demoReplacements: readonly (readonly [part: string, by: string, oldStock: 'use up' | 'new only'])[] = [
  ['T615-TE-1', 'T615-TE', 'use up'],
  ['H355-WP-1', 'H355-WP', 'new only'],
];

/** What will do in a part's place, and when. */
export const demoAlternatives: readonly (readonly [part: string, other: string, condition: string])[] = [
  ['T615-P-S', 'T615-P-0.25', 'once the cylinder is bored to +0.25, with the ring set of that size'],
  ['T615-P-0.25', 'T615-P-0.50', 'once the cylinder is bored to +0.50, with the ring set of that size'],
];

export const demoParts: readonly DemoPart[] = [
  ...haldenParts('H355', ['87.961', '87.954']),
  ...haldenParts('H388', ['91.953', '91.946']),
  ...ostrelParts,
  ...torvikParts,
  ...hardware,
  ...shims,
  ...replaced,
];

export type KitName = 'Top end' | 'Lash check' | 'Bottom end';

const kitOf = (
  family: FamilyCode,
  lines: readonly (readonly [string, number])[],
): readonly (readonly [string, number])[] =>
  lines.map(([suffix, quantity]) => [
    suffix.startsWith('W-') || suffix.startsWith('OIL') ? suffix : `${family}-${suffix}`,
    quantity,
  ]);

const fourStrokeTop: readonly (readonly [string, number])[] = [
  ['R', 1],
  ['PP', 1],
  ['CL', 2],
  ['GT', 1],
  ['VS', 4],
  ['TG', 1],
  ['OF', 1],
  ['W-12', 4],
  ['OIL-1', 2],
];
const lashCheck: readonly (readonly [string, number])[] = [
  ['VC', 1],
  ['TG', 1],
  ['OF', 1],
  ['W-12', 1],
  ['OIL-1', 2],
];
const bottomEnd: readonly (readonly [string, number])[] = [
  ['CB', 1],
  ['CG', 1],
  ['CS', 1],
  ['RK', 1],
  ['GT', 1],
];

export const demoKits: readonly {
  readonly family: FamilyCode;
  readonly name: KitName;
  readonly lines: readonly (readonly [string, number])[];
}[] = [
  ...(['H355', 'H388', 'T615'] as const).flatMap((family) => [
    {
      family,
      name: 'Top end' as const,
      lines: kitOf(family, [[family === 'T615' ? 'P-S' : 'P-A', 1], ...fourStrokeTop]),
    },
    { family, name: 'Lash check' as const, lines: kitOf(family, lashCheck) },
    { family, name: 'Bottom end' as const, lines: kitOf(family, bottomEnd) },
  ]),
  {
    family: 'O125',
    name: 'Top end',
    lines: kitOf('O125', [
      ['P-A', 1],
      ['R', 1],
      ['PP', 1],
      ['CL', 2],
      ['SB', 1],
      ['BG', 1],
      ['OR', 1],
      ['RG', 1],
      ['W-10', 1],
    ]),
  },
  { family: 'O125', name: 'Bottom end', lines: kitOf('O125', bottomEnd) },
];

/** Part → companions asked for with it. */
export const demoCompanions: readonly (readonly [part: string, companion: string, quantity: number])[] = [
  ...demoParts
    .filter(({ place }) => place === 'piston')
    .flatMap(({ number, family }): readonly (readonly [string, string, number])[] => [
      [number, `${family}-CL`, 2],
      [number, `${family}-${number.includes('-P-0') ? `R-${number.slice(-4)}` : 'R'}`, 1],
    ]),
  ...(['H355', 'H388', 'O125', 'T615'] as const).flatMap((family): readonly (readonly [string, string, number])[] => [
    [`${family}-PP`, `${family}-CL`, 2],
    [`${family}-CY`, `${family}-BG`, 1],
    [`${family}-CB`, `${family}-CG`, 1],
  ]),
  ...(['H355', 'H388', 'T615'] as const).flatMap((family): readonly (readonly [string, string, number])[] => [
    [`${family}-VI`, `${family}-VS`, 1],
    [`${family}-VE`, `${family}-VS`, 1],
    [`${family}-TE`, `${family}-TG`, 1],
  ]),
];
