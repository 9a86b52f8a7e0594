import type postgres from 'postgres';

/**
 * How column values arrive in code. int8 is a number, and an error when a number can't hold it exactly; numeric stays
 * text; an instant is RFC 3339 text in UTC that keeps its microseconds; a date is text such as 2026-11-25.
 */
export const columnTypes = {
  int8: {
    to: 20,
    from: [20],
    parse: safeInteger,
    serialize: (value: number) => String(safeInteger(String(value))),
  },
  date: { to: 1082, from: [1082], parse: (text: string) => text, serialize: (value: string) => value },
  timestamptz: {
    to: 1184,
    from: [1184],
    parse: instantText,
    serialize: (value: string): string => (isDate(value) ? value.toISOString() : value),
  },
} satisfies Record<string, postgres.PostgresType>;

/** The driver hands over a Date that a query was given, whatever the type above says. */
function isDate(value: unknown): value is Date {
  return value instanceof Date;
}

function safeInteger(text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value)) throw new RangeError(`${text} is not a whole number that fits without loss`);
  return value;
}

/** `2026-11-25 12:00:00.123456+00` → `2026-11-25T12:00:00.123456Z`; sessions run in UTC, so +00 is the only offset. */
function instantText(text: string): string {
  const match = /^(\d{4}-\d\d-\d\d) (\d\d:\d\d:\d\d(?:\.\d+)?)\+00$/.exec(text);
  if (!match) throw new RangeError(`${text} is not an instant in UTC`);
  return `${match[1]}T${match[2]}Z`;
}

/** An instant that came out of JSON, where PostgreSQL ends it in +00:00: on the wire it ends in Z like all others. */
export const instantFromJson = (text: string): string => text.replace('+00:00', 'Z');
