import type { BuildSheet } from '#contracts/hand-back.ts';
import type { StripReading } from '../../drawings/limit-axis.ts';
import type { VerdictKind } from '../../drawings/verdict-kind.ts';

export type SheetFinding = BuildSheet['findings'][number];

const rounds = ['as received', 'after work', 'as built'] as const;
export type Round = (typeof rounds)[number];

/** One dimension against one set of limits, with what was found of it in each round. */
export interface SheetRow {
  readonly key: string;
  readonly name: string;
  readonly findings: ReadonlyMap<Round, SheetFinding>;
  /** Of the last round: it is what went out of the door. */
  readonly newest: SheetFinding;
}

const roundOf = (text: string): Round => rounds.find((round) => round === text) ?? 'as received';

const limitsOf = ({ figure }: SheetFinding): string =>
  [figure.standardLow, figure.standardHigh, figure.serviceLow, figure.serviceHigh].join(' ');

/** One row a dimension; a size that changed, and with it the limits, begins a row of its own. */
export function sheetRows(findings: readonly SheetFinding[]): readonly SheetRow[] {
  const rows = new Map<string, SheetRow>();
  for (const finding of findings) {
    const key = `${finding.dimension} ${limitsOf(finding)}`;
    const before = rows.get(key);
    const found = new Map(before?.findings).set(roundOf(finding.round), finding);
    const newest = [...rounds].reverse().flatMap((round) => found.get(round) ?? [])[0] ?? finding;
    rows.set(key, { key, name: finding.name, findings: found, newest });
  }
  return [...rows.values()];
}

/** The rounds in which anything was found, in their order. */
export const roundsIn = (rows: readonly SheetRow[]): readonly Round[] =>
  rounds.filter((round) => rows.some(({ findings }) => findings.has(round)));

const verdicts: readonly VerdictKind[] = ['within standard', 'within service limit', 'past the limit', 'undecided'];

export const verdictOf = ({ verdict }: SheetFinding): VerdictKind =>
  verdicts.find((known) => known === verdict) ?? 'not measured';

/** What a strip draws of a finding; play felt by hand has no place on a scale. */
export function readingOf({ figure }: SheetFinding): StripReading | null {
  switch (figure.type) {
    case 'point':
      return { kind: 'value', value: figure.low, guard: figure.guard };
    case 'interval':
    case 'span':
      return { kind: 'interval', goes: figure.low, doesNot: figure.high };
    default:
      return null;
  }
}

/** Where earlier rounds lay on the same scale. */
export const earlierOf = ({ findings, newest }: SheetRow): readonly number[] =>
  [...findings.values()].flatMap((finding) =>
    finding === newest || finding.figure.type === 'felt' ? [] : [finding.figure.low],
  );
