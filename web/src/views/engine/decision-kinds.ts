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

/** Whether it matters for this decision what fits the bore as it is, or as it would be. */
export const isAboutSize = (kind: DispositionKind): boolean =>
  kind === 'bore' || kind === 'hone' || kind === 'replace' || kind === 'reuse';
