import type { BenchDimension } from '#contracts/bench.ts';
import type { BoreLevel } from '../../drawings/bore-facts.ts';
import type { PositionFacts } from '../../drawings/positions/position-facts.ts';
import type { PlaceStanding } from './measuring.ts';

const valueAt = (standing: PlaceStanding | undefined): number | null =>
  standing?.taken.findLast(({ value }) => value !== null)?.value ?? null;

function boreOf(standings: readonly PlaceStanding[], place: PlaceStanding | undefined): PositionFacts | null {
  const heights = [...new Set(standings.map(({ position }) => position.level))].filter((level) => level !== null);
  const at = (level: number, axis: string) =>
    standings.find(({ position }) => position.level === level && position.axis === axis);
  const levels: BoreLevel[] = heights.map((level) => ({
    height: Number(standings.find(({ position }) => position.level === level)?.position.height?.value ?? 0),
    across: valueAt(at(level, 'across')),
    along: valueAt(at(level, 'along')),
  }));
  const axis = place?.position.axis;
  const level = heights.indexOf(place?.position.level ?? -1);
  return {
    kind: 'bore',
    levels,
    active: level >= 0 && (axis === 'across' || axis === 'along') ? { level, axis } : null,
  };
}

const isBore = (standings: readonly PlaceStanding[]): boolean =>
  standings.length > 1 &&
  standings.every(({ position: { level, axis } }) => level !== null && (axis === 'across' || axis === 'along'));

/** Depth at which a ring is squared in the bore when its sheet names none (common practice, no source). */
const SQUARED_AT_MM = 10;
const HEIGHT_IN_NAME = /(\d+(?:[.,]\d+)?)\s*mm/;

/** The drawing that shows where a dimension is measured; null where its places are told in words only. */
export function pictureOf(
  dimension: BenchDimension,
  standings: readonly PlaceStanding[],
  place: PlaceStanding | undefined,
): PositionFacts | null {
  const [first] = standings;
  const index = place === undefined ? -1 : standings.indexOf(place);
  const active = index < 0 ? null : index;
  const { placeCode, method, code } = dimension;
  if (first === undefined) return null;
  if (isBore(standings)) return boreOf(standings, place);
  if (standings.length === 6 && code.includes('face')) {
    return { kind: 'flatness', lines: standings.map(valueAt), active };
  }
  if (standings.length === 1 && placeCode === 'piston' && method === 'single') {
    const height = first.position.height?.value ?? HEIGHT_IN_NAME.exec(dimension.name)?.[1] ?? '10';
    return {
      kind: 'piston',
      heightAboveSkirt: Number(height.replace(',', '.')),
      value: valueAt(first),
      active: active !== null,
    };
  }
  if (standings.length === 1 && method === 'interval' && placeCode.startsWith('ring')) {
    return {
      kind: 'ring-gap',
      depth: Number(first.position.height?.value ?? SQUARED_AT_MM),
      value: first.taken.at(-1)?.text ?? null,
      active: active !== null,
    };
  }
  if (standings.length === 3 && placeCode === 'pin') {
    return {
      kind: 'pin',
      places: standings.map((standing) => ({ name: standing.position.label, value: valueAt(standing) })),
      active,
    };
  }
  return null;
}
