export type BayKey = 'strip' | 'measuring' | 'head' | 'assembly' | 'run-up' | 'wash' | 'rack';

export interface DemoBay {
  readonly key: BayKey;
  readonly name: string;
  readonly kind: string;
  readonly capacity: number;
  readonly column: number;
  readonly row: number;
  readonly width: number;
}

const bay = (
  key: BayKey,
  name: string,
  kind: string,
  room: number,
  place: readonly [number, number, number],
): DemoBay => ({
  key,
  name,
  kind,
  capacity: room,
  column: place[0],
  row: place[1],
  width: place[2],
});

/** Five bays in two rows as they lie in the shop, the wash corner beside them, the rack along the wall. */
export const demoBays: readonly DemoBay[] = [
  bay('strip', 'Bay 1', 'strip', 1, [1, 1, 1]),
  bay('measuring', 'Bay 2', 'measuring', 1, [2, 1, 1]),
  bay('head', 'Bay 3', 'head bench', 1, [3, 1, 1]),
  bay('assembly', 'Bay 4', 'assembly', 1, [1, 2, 1]),
  bay('run-up', 'Bay 5', 'run-up', 1, [2, 2, 1]),
  bay('wash', 'Wash corner', 'wash', 2, [3, 2, 1]),
  bay('rack', 'Rack', 'rack', 12, [1, 3, 3]),
];

export interface DemoTerminal {
  readonly key: string;
  readonly name: string;
  readonly bay: BayKey | null;
  readonly idleMinutes: number;
}

export const demoTerminals: readonly DemoTerminal[] = [
  { key: 'strip', name: 'Terminal bay 1', bay: 'strip', idleMinutes: 15 },
  { key: 'measuring', name: 'Terminal bays 2 and 3', bay: 'measuring', idleMinutes: 15 },
  { key: 'assembly', name: 'Terminal bays 4 and 5', bay: 'assembly', idleMinutes: 15 },
  { key: 'counter', name: 'Counter', bay: null, idleMinutes: 30 },
  { key: 'stores', name: 'Stores', bay: null, idleMinutes: 30 },
];

export type VendorKey = 'saltmere' | 'lathbury' | 'brannock' | 'makers' | 'gaskets' | 'fasteners';

export const demoVendors: readonly {
  readonly key: VendorKey;
  readonly name: string;
  readonly trade: string;
  readonly contact: string;
}[] = [
  { key: 'saltmere', name: 'Saltmere Plating', trade: 'plating of cylinders', contact: 'works desk, 555 0140' },
  { key: 'lathbury', name: 'Lathbury Boring', trade: 'boring and honing', contact: 'workshop, 555 0171' },
  { key: 'brannock', name: 'Brannock Crank Works', trade: 'crank rebuilding and truing', contact: 'counter, 555 0118' },
  { key: 'makers', name: 'Harrowgate Engine Parts', trade: 'makers’ parts', contact: 'orders desk, 555 0102' },
  { key: 'gaskets', name: 'Pellow Gasket Company', trade: 'gaskets and seals', contact: 'orders desk, 555 0133' },
  { key: 'fasteners', name: 'Quillon Fixings', trade: 'fasteners and shims', contact: 'orders desk, 555 0155' },
];
