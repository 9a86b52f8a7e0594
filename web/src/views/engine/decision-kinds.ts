import type { EnginePage } from '#contracts/engines.ts';
import type { DispositionKind } from '#domain/obligations/disposition.ts';

type Cause = EnginePage['obligations'][number]['cause']['kind'];

const ofPieces: readonly DispositionKind[] = ['search', 'replace', 'other'];

/** What may be decided by what the obligation came from: a missing piece is searched for, a worn part is worked on. */
export function kindsFor(cause: Cause, all: readonly DispositionKind[]): DispositionKind[] {
  switch (cause) {
    case 'handover':
    case 'count':
      return all.filter((kind) => ofPieces.includes(kind));
    case 'finding':
      return all.filter((kind) => kind !== 'search');
    case 'lead':
      return [...all];
  }
}
