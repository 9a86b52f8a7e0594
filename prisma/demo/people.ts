import type { Role } from '../../server/contracts/rights.ts';

export interface DemoPerson {
  readonly key: PersonKey;
  readonly name: string;
  readonly initials: string;
  readonly roles: readonly Role[];
  /** Only for a service that no other machine can reach. */
  readonly pin: string;
}

export type PersonKey = 'nadia' | 'oskar' | 'bea' | 'tomasz' | 'maren' | 'idris' | 'hetty';

const person = (
  key: PersonKey,
  name: string,
  who: Pick<DemoPerson, 'initials' | 'pin'>,
  roles: readonly Role[],
): DemoPerson => ({
  key,
  name,
  ...who,
  roles,
});

export const demoPeople: readonly DemoPerson[] = [
  person('maren', 'Maren Tolk', { initials: 'MT', pin: '4101' }, ['lead']),
  person('idris', 'Idris Fenwick', { initials: 'IF', pin: '4202' }, ['service writer']),
  person('hetty', 'Hetty Varga', { initials: 'HV', pin: '4303' }, ['parts clerk']),
  person('nadia', 'Nadia Quill', { initials: 'NQ', pin: '4404' }, ['technician']),
  person('oskar', 'Oskar Pell', { initials: 'OP', pin: '4505' }, ['technician']),
  person('bea', 'Bea Lindqvist', { initials: 'BL', pin: '4606' }, ['technician']),
  person('tomasz', 'Tomasz Rudd', { initials: 'TR', pin: '4707' }, ['technician']),
];
