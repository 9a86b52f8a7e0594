import { type DraftKept, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import type { SheetDocument } from '#domain/spec-sheet/document.ts';
import type { SheetFault } from '#domain/spec-sheet/faults.ts';
import type { Act } from '#platform/act.ts';
import { rowRefusal } from '#platform/csv-file.ts';
import { replaceDraft, sheetRefusal } from './draft-service.ts';
import type { RevisionDrafted } from './revision-queries.ts';
import { readSheetCsv } from './sheet-csv-reading.ts';

/** What is longer or more than a sheet may hold. */
function shapeFaults(document: SheetDocument): readonly SheetFault[] {
  const parsed = SpecSheetDocument.safeParse(document);
  return (parsed.error?.issues ?? []).map((issue) => ({
    pointer: `/${issue.path.join('/')}`,
    detail:
      issue.code !== 'too_big'
        ? issue.message
        : issue.origin === 'array'
          ? `A sheet holds at most ${issue.maximum} of these in one place.`
          : `is longer than ${issue.maximum} characters.`,
  }));
}

/**
 * Brings a file into a draft, all of it or nothing. A fault is told at its row and column; one that lies in what the
 * sheet held before (a valve whose lash the file leaves out), at its JSON pointer.
 */
export async function importSheetCsv(
  act: Act,
  revision: RevisionDrafted,
  file: { readonly text: string; readonly before: SheetDocument; readonly keep: boolean },
): Promise<DraftKept> {
  const read = readSheetCsv(file.text, file);
  if (!read.ok) throw rowRefusal(read.faults);
  const checked = checkSheet(read.document);
  const faults = checked.ok ? shapeFaults(read.document) : checked.faults;
  const told = new Set(read.faults.map(({ row }) => row));
  // What follows from a cell that can't be read isn't told a second time.
  const checkedFaults = faults
    .flatMap((fault) => read.origins.placeOf(fault) ?? [])
    .filter(({ row }) => !told.has(row));
  const inFile = [...read.faults, ...checkedFaults].toSorted((a, b) => a.row - b.row);
  if (inFile.length > 0) throw rowRefusal(inFile);
  if (faults.length > 0) throw sheetRefusal(faults);
  return replaceDraft(act, revision, read.document);
}
