/** What a role may do. A right names an act of the trade; the server checks it on every route. */
export const roles = ['service writer', 'technician', 'parts clerk', 'lead'] as const;
export type Role = (typeof roles)[number];

export const rights = [
  /** See the floor, engines, stores: everyone signed in. */
  'look',
  /** Take in, assign bays, promise, hand back. */
  'counter',
  /** Quotes, prices, the owner's yes. */
  'money',
  /** Open, tally, measure, assemble, prove; hand over and accept. */
  'bench',
  /** Demands, reservations, movements, receiving. */
  'stores',
  /** Put stock right by a count that was beyond tolerance twice. */
  'settle counts',
  /** Ask for a kit to be reserved (a technician or writer may, a clerk issues). */
  'ask for parts',
  /** Decide on obligations. */
  'decide',
  /** Override a gate, move custody for somebody absent, rebind a spec revision. */
  'lead',
  /** Bays, people, instruments, spec sheets, procedures. */
  'set up',
] as const;
export type Right = (typeof rights)[number];

const granted: Record<Role, readonly Right[]> = {
  'service writer': ['look', 'counter', 'money', 'ask for parts'],
  technician: ['look', 'bench', 'ask for parts', 'decide'],
  'parts clerk': ['look', 'stores', 'money', 'ask for parts'],
  lead: rights,
};

/** True if one of the roles grants the right. */
export const may = (held: readonly Role[], right: Right): boolean => held.some((role) => granted[role].includes(right));
