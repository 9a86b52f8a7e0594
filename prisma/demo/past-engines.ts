import type { FamilyCode } from './families/families.ts';

/** What was done on a visit that is over. */
export type PastWork = 'top end' | 'lash check';

export interface PastEngine {
  readonly family: FamilyCode;
  readonly serial: string;
  readonly owner: string;
  readonly contact: string;
  readonly note?: string;
  /** Meter hours of each visit handed back, with the work. */
  readonly visits: readonly (readonly [hours: number, work: PastWork])[];
}

const top = (...hours: readonly number[]): readonly (readonly [number, PastWork])[] =>
  hours.map((each) => [each, 'top end']);
const lash = (...hours: readonly number[]): readonly (readonly [number, PastWork])[] =>
  hours.map((each) => [each, 'lash check']);

/** Engines the shop knows; those that are in the shop today come again in floor-now. */
export const demoEngines: readonly PastEngine[] = [
  { family: 'H355', serial: 'H355-0417', owner: 'Ingrid Falk', contact: '555 0201', visits: top(61, 122, 184) },
  {
    family: 'H355',
    serial: 'H355-0388',
    owner: 'Ruben Aske',
    contact: '555 0202',
    visits: [...lash(44), ...top(118, 290)],
  },
  {
    family: 'H355',
    serial: 'H355-0402',
    owner: 'Sanne Brouwer',
    contact: '555 0203',
    visits: [...lash(38), ...top(97)],
  },
  { family: 'H355', serial: 'H355-0377', owner: 'Piet Hallam', contact: '555 0204', visits: top(72, 141) },
  { family: 'H355', serial: 'H355-0431', owner: 'Quarry Lane Riders', contact: 'club secretary, 555 0205', visits: [] },
  {
    family: 'H355',
    serial: 'H355-0296',
    owner: 'Quarry Lane Riders',
    contact: 'club secretary, 555 0205',
    note: 'Club engine, ridden in sand.',
    visits: top(58, 112, 171, 222),
  },
  {
    family: 'H355',
    serial: 'H355-0310',
    owner: 'Jonas Merrow',
    contact: '555 0206',
    visits: [...lash(41), ...top(90, 148)],
  },
  { family: 'H388', serial: 'H388-0119', owner: 'Karin Ostby', contact: '555 0207', visits: top(84, 166) },
  {
    family: 'H388',
    serial: 'H388-0122',
    owner: 'Dale Whitcombe',
    contact: '555 0208',
    visits: [...lash(52), ...top(118)],
  },
  { family: 'H388', serial: 'H388-0130', owner: 'Marit Sund', contact: '555 0209', visits: top(76) },
  { family: 'H388', serial: 'H388-0101', owner: 'Lars Vinter', contact: '555 0210', visits: top(70, 139, 205) },
  { family: 'O125', serial: 'O125-0931', owner: 'Elin Tarn', contact: '555 0211', visits: top(19, 36, 53, 70) },
  { family: 'O125', serial: 'O125-0854', owner: 'Tess Oakley', contact: '555 0212', visits: top(24, 49, 73) },
  { family: 'O125', serial: 'O125-0888', owner: 'Mika Rowe', contact: '555 0213', visits: top(26, 52) },
  {
    family: 'O125',
    serial: 'O125-0760',
    owner: 'Harbour Youth Team',
    contact: 'team leader, 555 0214',
    visits: top(18, 37, 59, 80),
  },
  {
    family: 'T615',
    serial: 'T615-2205',
    owner: 'Wim de Graaf',
    contact: '555 0215',
    visits: [...lash(90), ...top(188, 296)],
  },
  {
    family: 'T615',
    serial: 'T615-2177',
    owner: 'Farm Co-operative East',
    contact: 'workshop, 555 0216',
    visits: top(160, 310),
  },
  { family: 'T615', serial: 'T615-2231', owner: 'Anouk Steen', contact: '555 0217', visits: lash(70) },
  {
    family: 'T615',
    serial: 'T615-2098',
    owner: 'Farm Co-operative East',
    contact: 'workshop, 555 0216',
    visits: top(210, 330, 452),
  },
  {
    family: 'T615',
    serial: 'T615-2190',
    owner: 'Bram Keller',
    contact: '555 0218',
    visits: [...lash(80), ...top(205)],
  },
];

export const complaints = {
  'top end': [
    'Down on power, uses oil',
    'Hard to start hot, smokes on the overrun',
    'Rattles when cold, compression low',
    'Due by the hours, no complaint',
    'Blue smoke after idling',
    'Seized lightly on a long climb, freed itself',
  ],
  'lash check': ['Hard to start cold', 'Ticks at idle', 'Due by the hours, lash to be checked', 'Stalls when hot'],
} as const satisfies Record<PastWork, readonly [string, ...string[]]>;
