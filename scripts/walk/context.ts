import type { Person } from './client.ts';

/** Who walks, and what the walk has come to know: ids by name, filled as it goes. */
export interface Walk {
  readonly base: string;
  readonly writer: Person;
  readonly clerk: Person;
  readonly lead: Person;
  readonly stripper: Person;
  readonly measurer: Person;
  readonly familyId: string;
  readonly vendorId: string;
  readonly bays: { readonly rack: string; readonly strip: string };
  /** A bin to put a delivery into whose part has none yet. */
  readonly binId: string;
  readonly serial: string;
}

export interface Job {
  readonly jobId: string;
  readonly engineId: string;
  readonly number: number;
}
