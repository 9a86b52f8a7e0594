import { reasonShownTo } from '#features/custody/service.ts';

/** What lies in trays whose counts the viewer must not see yet. */
export interface Blind {
  readonly trays: ReadonlySet<string>;
  readonly pieces: ReadonlySet<string>;
}

type Facts = Record<string, unknown>;

const isFacts = (value: unknown): value is Facts =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const has = (set: ReadonlySet<string>, value: unknown): boolean => typeof value === 'string' && set.has(value);

/** Everything that counts; places of a rack do too, since each holds one piece. */
const counting: ReadonlySet<string> = new Set([
  'count',
  'off',
  'expected',
  'given',
  'counted',
  'places',
  'filled',
  'emptied',
]);
const withoutCounts = (facts: Facts): Facts =>
  Object.fromEntries(Object.entries(facts).filter(([fact]) => !counting.has(fact)));

function differenceShown(difference: unknown, { trays, pieces }: Blind): unknown {
  if (typeof difference === 'string') {
    const tells =
      [...trays].some((label) => difference.includes(`Tray ${label}:`)) ||
      [...pieces].some((name) => difference.includes(name));
    return tells ? 'counted otherwise than given' : difference;
  }
  if (!isFacts(difference)) return difference;
  return has(trays, difference.tray) || has(pieces, difference.piece) ? withoutCounts(difference) : difference;
}

/** An event's facts for a viewer who is yet to count some trays: names stay, counts of what lies in them are left out. */
export function factsShown(data: Facts, blind: Blind): Facts {
  if (blind.trays.size === 0) return data;
  const ofTray = has(blind.trays, data.tray);
  const pieces = listOf(data.pieces).map((piece) =>
    isFacts(piece) && (ofTray || has(blind.pieces, piece.name)) ? withoutCounts(piece) : piece,
  );
  const overridden = listOf(data.overridden).map((reason) =>
    typeof reason === 'string' ? reasonShownTo(reason, blind.pieces) : reason,
  );
  const differences = listOf(data.differences).map((difference) => differenceShown(difference, blind));
  return {
    ...data,
    ...(Array.isArray(data.pieces) ? { pieces } : {}),
    ...(Array.isArray(data.differences) ? { differences } : {}),
    ...(Array.isArray(data.overridden) ? { overridden } : {}),
  };
}
