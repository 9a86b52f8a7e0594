import type { EngineLine } from '#contracts/engines.ts';
import type { TakeIn } from '#contracts/intake.ts';

/** What stands in the form, before it is known to be whole. */
export interface TakeInEntry {
  readonly serial: string;
  /** The engine of that serial, when it was here before. */
  readonly known: EngineLine | null;
  readonly familyId: string;
  readonly ownerName: string;
  readonly ownerId: string | null;
  readonly ownerNote: string;
  readonly contact: string;
  readonly hours: string;
  readonly complaint: string;
  readonly wishes: string;
  readonly bayId: string;
}

export const noTakeIn: TakeInEntry = {
  serial: '',
  known: null,
  familyId: '',
  ownerName: '',
  ownerId: null,
  ownerNote: '',
  contact: '',
  hours: '',
  complaint: '',
  wishes: '',
  bayId: '',
};

/** True while the engine is in the shop: then there is nothing to take in. */
export const isIn = (engine: EngineLine | null): boolean =>
  engine?.lastVisit !== null && engine?.lastVisit !== undefined && engine.lastVisit.handedBackAt === null;

/** Words of the first thing that is wrong with each field; none: it is whole. */
export interface TakeInFaults {
  readonly engine?: 'serialWrong';
  readonly family?: 'familyMissing';
  readonly owner?: 'ownerMissing';
  readonly hours?: 'hoursHint';
  readonly complaint?: 'complaintMissing';
  readonly bay?: 'bayMissing';
}

export function faultsOf(entry: TakeInEntry): TakeInFaults {
  return {
    ...(entry.known !== null || /^[A-Z0-9][A-Z0-9-]{1,39}$/.test(entry.serial) ? {} : { engine: 'serialWrong' }),
    ...(entry.known !== null || entry.familyId !== '' ? {} : { family: 'familyMissing' }),
    ...(entry.ownerId !== null || entry.ownerName.trim() !== '' ? {} : { owner: 'ownerMissing' }),
    ...(/^\d{1,6}([.,]\d)?$/.test(entry.hours.trim()) ? {} : { hours: 'hoursHint' }),
    ...(entry.complaint.trim() !== '' ? {} : { complaint: 'complaintMissing' }),
    ...(entry.bayId !== '' ? {} : { bay: 'bayMissing' }),
  };
}

/** The request, when nothing is missing. */
export function takeInOf(entry: TakeInEntry): TakeIn | undefined {
  if (Object.keys(faultsOf(entry)).length > 0 || isIn(entry.known)) return undefined;
  const wishes = entry.wishes.trim();
  return {
    engine: entry.known === null ? { serial: entry.serial, familyId: entry.familyId } : { id: entry.known.id },
    owner:
      entry.ownerId === null ? { name: entry.ownerName.trim(), contact: entry.contact.trim() } : { id: entry.ownerId },
    hours: entry.hours.trim().replace(',', '.'),
    complaint: entry.complaint.trim(),
    ...(wishes === '' ? {} : { wishes }),
    bayId: entry.bayId,
  };
}
