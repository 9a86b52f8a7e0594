import type { Method } from '#domain/metrology/dimension.ts';
import type { Finding, FindingValue } from '#domain/metrology/finding.ts';
import type { PrintedFigures } from '#domain/units/printed-figures.ts';

/** What a finding found, in words: a figure, an interval between stated blades, a span or a feeling. */
export function valueWords(value: FindingValue, { stated, workedOut }: PrintedFigures): string {
  switch (value.type) {
    case 'point':
      return workedOut(value.value);
    case 'interval':
      return value.high === null
        ? `${stated(value.low)} or more`
        : `between ${stated(value.low)} and ${stated(value.high)}`;
    case 'span':
      return value.high === null
        ? `${workedOut(value.low)} or more`
        : `${workedOut(value.low)} to ${workedOut(value.high)}`;
    case 'felt':
      return value.present ? 'play felt' : 'no play felt';
  }
}

/** A finding in one sentence: what was found, how it stands to the limit, and how sure that is. */
export function findingWords(finding: Finding, name: string, printed: PrintedFigures): string {
  const { value, nearestLimit, margin, guardBand, verdict } = finding;
  const found = `${name}: ${valueWords(value, printed)}`;
  if (nearestLimit === null) return `${found}, ${verdict}.`;
  const limit = `the ${nearestLimit.side} limit ${printed.stated(nearestLimit.value)}`;
  const sure = guardBand === 0 ? 'no guard band' : `guard band ${printed.keptOff(guardBand)}`;
  switch (verdict) {
    case 'past the limit':
      return `${found}, ${margin === null ? 'past' : `${printed.apart(Math.abs(margin))} past`} ${limit} (${sure}).`;
    case 'undecided':
      return `${found}, too near ${limit} to tell (${sure}).`;
    case 'within standard':
    case 'within service limit':
      return `${found}, ${verdict}${margin === null ? '' : `, ${printed.apart(margin)} from ${limit}`}.`;
  }
}

/** What the obligation's words need to know of the dimension beside its finding. */
export type Mendable = {
  readonly method: Method['type'];
  readonly plated: boolean;
  /** Other size classes the sheet lists, to which it could be bored. */
  readonly sizeClasses: readonly string[];
};

const listed = (classes: readonly string[]): string => (classes.length === 0 ? '' : ` to ${classes.join(' or ')}`);

/** What may be done about it; the maker's manual decides. */
export function mendingWords({ method, plated, sizeClasses }: Mendable): string {
  const bored = method === 'size' || method === 'out-of-round' || method === 'taper';
  if (bored && plated) return 'Replate or renew it; a plated bore is never bored or honed to size';
  if (bored) return `Hone it, bore it${listed(sizeClasses)}, replate or renew it`;
  if (method === 'difference') return 'Renew or mend one of the two parts';
  return 'Mend or renew it';
}

/** The obligation that a finding opens: which dimension, by how much, and what may be done. At most 500 characters. */
export function obligationWords(
  finding: Finding,
  { name, round, printed, mendable }: { name: string; round: string; printed: PrintedFigures; mendable: Mendable },
): string {
  const first = finding.verdict === 'undecided' ? 'Measure again with a finer instrument or more readings. ' : '';
  const said = `${findingWords(finding, `${name}, ${round}`, printed)} ${first}${mendingWords(mendable)}; or a named person accepts it with a reason.`;
  return said.length <= 500 ? said : `${said.slice(0, 499)}…`;
}
