import { checkSymbolOf, labelAlphabet } from './check-symbol.ts';

/** What a label may be stuck on; a badge is a label of a person. */
export const labelledKinds = ['engine', 'tray', 'rack', 'bin', 'part'] as const;
export type LabelledKind = (typeof labelledKinds)[number];
export type CodeKind = LabelledKind | 'badge';

/** What every code begins with; readers and terminals tell a scan by it. */
export const CODE_PREFIX = 'XH';

const letterOf: Readonly<Record<CodeKind, string>> = {
  engine: 'E',
  tray: 'T',
  rack: 'R',
  bin: 'B',
  part: 'P',
  badge: 'H',
};
/** The letters that tell of what kind a thing is. */
export const kindLetters: ReadonlySet<string> = new Set(Object.values(letterOf));
const kindOf = new Map(Object.entries(letterOf).map(([kind, letter]) => [letter, kind as CodeKind]));

const MARK_LENGTH = 2;
const serialLength = (kind: CodeKind): number => (kind === 'badge' ? 16 : 8);

/** What a code says: of what kind the thing is, which shop's label it is, and the thing's serial. */
export interface LabelCode {
  readonly kind: CodeKind;
  /** Two symbols of the shop's own. */
  readonly mark: string;
  /** Eight symbols of {@link labelAlphabet}; sixteen, all random, on a badge. */
  readonly serial: string;
}

/**
 * The code as it is printed in the symbol: `XH`, a letter for the kind, the shop's mark, the serial, the check symbol.
 * Fourteen capital letters and digits (22 on a badge), so that a reader that types it is understood on any keyboard layout
 * that has the letters and digits in their usual places, and so that it fits the smallest useful symbols.
 * @throws RangeError when the mark or the serial has another length, or symbols that are not of the alphabet
 */
export function writeCode({ kind, mark, serial }: LabelCode): string {
  if (mark.length !== MARK_LENGTH || serial.length !== serialLength(kind)) {
    throw new RangeError('mark or serial of another length');
  }
  const checked = `${letterOf[kind]}${mark}${serial}`;
  return `${CODE_PREFIX}${checked}${checkSymbolOf(checked)}`;
}

export type CodeRead =
  | { readonly ok: true; readonly code: LabelCode }
  /** `not ours`: it does not begin as a code does. `mistyped`: it does, but the rest can't be right. */
  | { readonly ok: false; readonly reason: 'not ours' | 'mistyped' };

/** As it was meant: no spaces or dashes, capitals, and the letters that are not in the alphabet as the digits they look like. */
const meant = (text: string): string =>
  text
    .replace(/[\s\-–·]/g, '')
    .toUpperCase()
    .replaceAll('O', '0')
    .replaceAll('I', '1')
    .replaceAll('L', '1');

/** Reads a code that was scanned, or typed by hand from below the symbol, in any case, with or without spaces. */
export function readCode(text: string): CodeRead {
  const typed = meant(text);
  const kind = kindOf.get(typed.charAt(CODE_PREFIX.length));
  if (!typed.startsWith(CODE_PREFIX) || kind === undefined) return { ok: false, reason: 'not ours' };
  const checked = typed.slice(CODE_PREFIX.length, -1);
  const whole = checked.length === 1 + MARK_LENGTH + serialLength(kind);
  const symbolsKnown = [...checked].every((symbol) => labelAlphabet.includes(symbol));
  if (!whole || !symbolsKnown || checkSymbolOf(checked) !== typed.at(-1)) return { ok: false, reason: 'mistyped' };
  return { ok: true, code: { kind, mark: checked.slice(1, 1 + MARK_LENGTH), serial: checked.slice(1 + MARK_LENGTH) } };
}

/** The code in groups, as it is printed for people beneath the symbol: `XHT Q7 7K3M 9QZT 4`. */
export function codeInGroups(code: string): string {
  const head = CODE_PREFIX.length + 1;
  const groups = code.slice(head + MARK_LENGTH, -1).match(/.{1,4}/g) ?? [];
  return [code.slice(0, head), code.slice(head, head + MARK_LENGTH), ...groups, code.slice(-1)].join(' ');
}
