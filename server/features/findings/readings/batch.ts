import type { Measured } from '../judging/material.ts';
import type { ReadingRow } from '../judging/queries.ts';
import type { JobOnBench } from '../judging/service.ts';
import { type FaultAt, isQuestion } from './faults.ts';
import { type Draft, type Understood, understand } from './keying.ts';

/** Readings understood, what is asked about them, and what keeps them from being kept. */
export interface Batch {
  readonly readings: readonly { readonly index: number; readonly reading: Understood }[];
  readonly faults: readonly FaultAt[];
  readonly questions: readonly FaultAt[];
  readonly warnings: readonly string[];
}

export interface Reader {
  readonly id: string;
  readonly name: string;
  /** The day on which it was read, in the shop's zone. */
  readonly on: string;
}

const placeOf = (row: Pick<Measured, 'dimension' | 'position' | 'fittedPartId'> & { round: string }): string =>
  JSON.stringify([row.round, row.dimension, row.position, row.fittedPartId]);

interface Taken {
  readonly repeats: Map<number, string>;
  instrument: string | null | undefined;
}

/** What is at each position already: repeats that stand, and the one instrument they were taken with. */
class Positions {
  readonly #taken = new Map<string, Taken>();

  add(row: Understood | ReadingRow): void {
    const key = placeOf(row);
    const here = this.#taken.get(key) ?? { repeats: new Map<number, string>(), instrument: undefined };
    here.repeats.set(row.repeat, `${row.text} ${row.unit}`);
    here.instrument = row.instrumentCode;
    this.#taken.set(key, here);
  }

  faultsOf(row: Understood): readonly Omit<FaultAt, 'index'>[] {
    const here = this.#taken.get(placeOf(row));
    if (here === undefined) return [];
    const standing = here.repeats.get(row.repeat);
    if (standing !== undefined) {
      const detail = `${row.dimension} at ${row.position} has a reading ${row.repeat} already, ${standing}. Strike it first, or number this one anew.`;
      return [{ field: 'repeat', code: 'conflict', detail }];
    }
    if (here.instrument === row.instrumentCode || here.repeats.size === 0) return [];
    const detail = `${row.dimension} at ${row.position} was measured with ${here.instrument ?? 'nothing'}: take the repeats with the same, or strike those.`;
    return [{ field: 'instrumentCode', code: 'conflict', detail }];
  }
}

/** Understands a batch against the sheet, the register and what stands; `free` lets a typed reading take another's place. */
export function understandBatch(
  drafts: readonly Draft[],
  bench: JobOnBench,
  with_: { readonly reader: Reader; readonly standing: readonly ReadingRow[]; readonly free?: boolean },
): Batch {
  const positions = new Positions();
  if (with_.free !== true) for (const row of with_.standing) positions.add(row);
  const readings: { index: number; reading: Understood }[] = [];
  const faults: FaultAt[] = [];
  const questions: FaultAt[] = [];
  const warnings = new Set<string>();
  drafts.forEach((draft, index) => {
    const dimension = bench.sheet.dimensions.find(({ code }) => code === draft.dimension);
    if (dimension === undefined) {
      const detail = `The spec sheet has no dimension ${draft.dimension}.`;
      faults.push({ index, field: 'dimension', code: 'not-found', detail });
      return;
    }
    const part = bench.parts.find(({ placeCode, removed }) => placeCode === dimension.place.code && !removed);
    const keyed = understand(
      draft,
      { dimension, register: bench.register },
      {
        fittedPartId: part?.id ?? null,
        readById: with_.reader.id,
        readByName: with_.reader.name,
        readOn: with_.reader.on,
      },
    );
    if (!keyed.ok) {
      faults.push(...keyed.faults.map((fault) => ({ index, ...fault })));
      return;
    }
    const taken = positions.faultsOf(keyed.reading);
    faults.push(...taken.map((fault) => ({ index, ...fault })));
    const asked = keyed.questions.map((fault) => ({ index, ...fault }));
    questions.push(...asked);
    if (draft.confirmReason === '') faults.push(...asked.filter(isQuestion));
    for (const warning of keyed.warnings) warnings.add(warning);
    positions.add(keyed.reading);
    readings.push({ index, reading: keyed.reading });
  });
  return { readings, faults, questions, warnings: [...warnings] };
}
