import { createHash } from 'node:crypto';

/** Chance that comes out the same on every machine: each stream is named, so that one doesn't disturb another. */
export interface Chance {
  /** 0 ≤ x < 1. */
  readonly next: () => number;
  readonly between: (low: number, high: number) => number;
  /** A whole number, both ends included. */
  readonly whole: (low: number, high: number) => number;
  readonly pick: <T>(from: readonly [T, ...T[]]) => T;
  /** Normal with mean 0, as the sum of twelve uniform numbers. */
  readonly scatter: (sd: number) => number;
}

/** mulberry32, seeded by the hash of a name. */
export function chance(name: string): Chance {
  let state = createHash('sha256').update(name).digest().readUInt32LE(0);
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    whole,
    between: (low, high) => low + next() * (high - low),
    pick: (from) => from[whole(0, from.length - 1)] ?? from[0],
    scatter: (sd) => {
      let sum = -6;
      for (let i = 0; i < 12; i += 1) sum += next();
      return sum * sd;
    },
  };
}

/** UUIDv7-shaped ids that depend on the table, the row's place in it and its time alone. */
export function idMaker(): (table: string, at: number) => string {
  const counts = new Map<string, number>();
  return (table, at) => {
    const count = (counts.get(table) ?? 0) + 1;
    counts.set(table, count);
    const time = Math.floor(at).toString(16).padStart(12, '0');
    const rest = createHash('sha256').update(`quarry lane|${table}|${count}`).digest('hex');
    const variant = ((Number.parseInt(rest.slice(0, 1), 16) & 3) | 8).toString(16);
    return `${time.slice(0, 8)}-${time.slice(8)}-7${rest.slice(1, 4)}-${variant}${rest.slice(4, 7)}-${rest.slice(7, 19)}`;
  };
}
