import type { AddPart, ChangePart } from '#contracts/part-forms.ts';
import type { Part, PartName } from '#contracts/parts.ts';
import { moneyEntry, readMoney } from '../../words/money-entry.ts';

/** What goes with a part, and how many with each. */
export interface Companion {
  readonly part: PartName;
  readonly quantity: number;
}

/** A part as it stands in the fields of its form. */
export interface PartEntry {
  readonly number: string;
  readonly name: string;
  readonly familyId: string;
  readonly placeCode: string;
  readonly sizeClass: string;
  readonly grade: string;
  readonly unit: Part['unit'];
  readonly price: string;
  readonly core: string;
  readonly reorderPoint: string;
  readonly oneTime: boolean;
  readonly bySerial: boolean;
  readonly retired: boolean;
  /** Null: as they were. */
  readonly companions: readonly Companion[] | null;
}

export const entryOf = (part: Part | null): PartEntry => ({
  number: part?.number ?? '',
  name: part?.name ?? '',
  familyId: part?.familyId ?? '',
  placeCode: part?.placeCode ?? '',
  sizeClass: part?.sizeClass ?? '',
  grade: part?.grade ?? '',
  unit: part?.unit ?? 'piece',
  price: part?.price == null ? '' : moneyEntry(part.price),
  core: part?.core == null ? '' : moneyEntry(part.core),
  reorderPoint: String(part?.reorderPoint ?? 0),
  oneTime: part?.oneTime ?? false,
  bySerial: part?.bySerial ?? false,
  retired: part?.retired ?? false,
  companions: null,
});

/** A sum that was keyed and is none. */
export const sumIsWrong = (keyed: string, currency: string): boolean =>
  keyed.trim() !== '' && readMoney(keyed, currency) === undefined;

export const reorderIsWrong = ({ reorderPoint }: PartEntry): boolean => !/^\d{1,5}$/.test(reorderPoint.trim());

function basicsOf(entry: PartEntry, currency: string) {
  const price = entry.price.trim() === '' ? undefined : readMoney(entry.price, currency);
  const core = entry.core.trim() === '' ? undefined : readMoney(entry.core, currency);
  return {
    name: entry.name.trim(),
    familyId: entry.familyId === '' ? null : entry.familyId,
    placeCode: entry.placeCode.trim() === '' ? null : entry.placeCode.trim(),
    sizeClass: entry.sizeClass.trim() === '' ? null : entry.sizeClass.trim(),
    grade: entry.grade.trim(),
    oneTime: entry.oneTime,
    reorderPoint: Number(entry.reorderPoint),
    ...(price === undefined ? {} : { price }),
    ...(core === undefined ? {} : { core }),
    ...(entry.companions === null
      ? {}
      : { companions: entry.companions.map(({ part, quantity }) => ({ partId: part.id, quantity })) }),
  };
}

export const addingOf = (entry: PartEntry, currency: string): AddPart => ({
  ...basicsOf(entry, currency),
  number: entry.number.trim(),
  unit: entry.unit,
  bySerial: entry.bySerial,
});

export const changeOf = (entry: PartEntry, currency: string): ChangePart => ({
  ...basicsOf(entry, currency),
  retired: entry.retired,
});
