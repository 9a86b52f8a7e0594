import type { EngineEvent } from '#contracts/engines.ts';

/** The facts of an event by name, as text; what isn't there reads as nothing. */
export interface Told {
  readonly text: (name: string) => string;
  readonly is: (name: string) => boolean;
  /** Things by their name, each with its count if it has one: `8 × dowel, rag`. */
  readonly list: (name: string, key?: string) => string;
  readonly count: (name: string) => number;
  /** The things of a list, each with its own facts. */
  readonly each: (name: string) => readonly Told[];
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function asText(value: unknown): string {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  if (!isRecord(value)) return '';
  if ('unit' in value && 'value' in value) return `${asText(value.value)} ${asText(value.unit)}`;
  if ('unit' in value && 'low' in value) return `${asText(value.low)} – ${asText(value.high)} ${asText(value.unit)}`;
  return asText(value.words ?? value.name ?? value.label);
}

function itemText(item: unknown, key: string): string {
  if (!isRecord(item)) return asText(item);
  const name = asText(item[key]) || asText(item);
  const count = item.count ?? item.quantity ?? item.missing;
  return typeof count === 'number' && count > 1 && name !== '' ? `${count} × ${name}` : name;
}

export function toldBy(data: EngineEvent['data']): Told {
  const list = (name: string): readonly unknown[] => {
    const value = data[name];
    return Array.isArray(value) ? value : [];
  };
  return {
    text: (name) => asText(data[name]),
    is: (name) => data[name] === true,
    list: (name, key = 'name') =>
      list(name)
        .map((item) => itemText(item, key))
        .filter((text) => text !== '')
        .join(', '),
    each: (name) => list(name).flatMap((item) => (isRecord(item) ? [toldBy(item)] : [])),
    count: (name) => {
      const value = data[name];
      return typeof value === 'number' ? value : list(name).length;
    },
  };
}
