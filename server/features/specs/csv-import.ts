import type { DraftKept } from '#contracts/spec-sheets.ts';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import type { SheetDocument } from '#domain/spec-sheet/document.ts';
import type { Act } from '#platform/act.ts';
import { rowRefusal } from '#platform/csv-file.ts';
import { replaceDraft, sheetRefusal } from './draft-service.ts';
import type { RevisionDrafted } from './revision-queries.ts';
import { readSheetCsv } from './sheet-csv-reading.ts';

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
  const told = new Set(read.faults.map(({ row }) => row));
  // What follows from a cell that can't be read isn't told a second time.
  const checkedFaults = (checked.ok ? [] : checked.faults)
    .flatMap((fault) => read.origins.placeOf(fault) ?? [])
    .filter(({ row }) => !told.has(row));
  const inFile = [...read.faults, ...checkedFaults].toSorted((a, b) => a.row - b.row);
  if (inFile.length > 0) throw rowRefusal(inFile);
  if (!checked.ok) throw sheetRefusal(checked.faults);
  return replaceDraft(act, revision, read.document);
}
