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
  if (!checked.ok) {
    const inFile = checked.faults.flatMap((fault) => read.origins.placeOf(fault) ?? []);
    throw inFile.length > 0 ? rowRefusal(inFile.toSorted((a, b) => a.row - b.row)) : sheetRefusal(checked.faults);
  }
  return replaceDraft(act, revision, read.document);
}
