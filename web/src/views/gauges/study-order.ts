import type { Study } from '#contracts/gauge-studies.ts';

export interface Place {
  readonly part: number;
  readonly trial: number;
}

/** A number made of a text, the same for the same text (FNV-1a, 32 bits). */
function numberOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const character of text) {
    hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193);
  }
  return hash >>> 0;
}

/**
 * The places that a person still reads: trial after trial, the parts of each mixed anew, so that no figure can be
 * remembered from its place. The order is the study's own: it is the same after a reload and at another terminal.
 */
export function placesLeft(study: Study, personId: string): readonly Place[] {
  const read = new Set(
    study.readings.filter((one) => one.personId === personId).map(({ part, trial }) => `${part} ${trial}`),
  );
  const parts = Array.from({ length: study.parts }, (_, index) => index + 1);
  return Array.from({ length: study.trials }, (_, index) => index + 1).flatMap((trial) => {
    const place = (part: number) => numberOf(`${study.id} ${personId} ${trial} ${part}`);
    return parts
      .toSorted((a, b) => place(a) - place(b) || a - b)
      .filter((part) => !read.has(`${part} ${trial}`))
      .map((part) => ({ part, trial }));
  });
}
