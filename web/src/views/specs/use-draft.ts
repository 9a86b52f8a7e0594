import type { DraftKept, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { useWrite, type Writing } from '../../app/write.ts';

/** A draft as it was read, and how to put another document in its place. */
export interface Draft {
  readonly revisionId: string;
  readonly number: number;
  readonly document: SpecSheetDocument;
  readonly etag: string;
}

export interface Keeping extends Omit<Writing<DraftKept>, 'write'> {
  readonly keep: (document: SpecSheetDocument, onDone: () => void) => void;
}

/** Keeps a changed document in the draft, unless somebody has changed it since it was read. */
export function useKeeping({ revisionId, etag }: Draft): Keeping {
  const { write, ...writing } = useWrite<DraftKept>();
  return {
    ...writing,
    keep: (document, onDone) =>
      write({ path: `/spec-revisions/${revisionId}/sheet.json`, method: 'PUT', body: document, ifMatch: etag }, onDone),
  };
}
