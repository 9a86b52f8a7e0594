import { readCode } from '#domain/labels/code.ts';

let waiting: string | undefined;

/** True for a badge, which is nobody's business but the sign-in's. */
export function isBadge(text: string): boolean {
  const read = readCode(text);
  return read.ok && read.code.kind === 'badge';
}

/** A badge held to a terminal where somebody else is signed in: for the sign-in that follows. */
export function leaveBadge(text: string): void {
  waiting = text;
}

export function takeBadge(): string | undefined {
  const text = waiting;
  waiting = undefined;
  return text;
}
