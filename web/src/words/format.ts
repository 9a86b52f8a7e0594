import { useMemo } from 'react';
import type { Money } from '#contracts/wire.ts';
import { useSession } from '../app/session.tsx';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
/** Past half a year either way a day without its year could be of another one. */
const isFar = (ms: number): boolean => Math.abs(Date.now() - ms) > 183 * DAY;

/** How the shop writes times, spans, numbers and money: by its locale and in its zone. */
export interface Format {
  /** "10:42" today, "Tue 15:30" within a week, "19 Nov" else, "19 Nov 2024" of long ago. */
  readonly since: (instant: string) => string;
  readonly time: (instant: string) => string;
  readonly dateTime: (instant: string) => string;
  /** "16 Nov 2026": for paper, which is read in later years. */
  readonly date: (instant: string) => string;
  /** "Fri 27 Nov"; "Sun 27 Nov 2022" of a day more than half a year away. */
  readonly day: (day: string) => string;
  /** "27 Nov 2026": a day on paper. */
  readonly dayDated: (day: string) => string;
  /** "2 d 3 h", "2 h 02", "14 min" */
  readonly span: (from: string, to?: number) => string;
  readonly money: (money: Money) => string;
  /** What one of so many costs: as money, with two places more where it comes out uneven. */
  readonly moneyEach: (money: Money, count: number) => string;
  readonly number: (value: number, decimals?: number) => string;
  /** Decimal text as the server sent it, with the locale's decimal mark. */
  readonly decimal: (text: string) => string;
}

export function formatFor(locale: string, zone: string): Format {
  const at = (options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(locale, { timeZone: zone, ...options });
  const time = at({ hour: '2-digit', minute: '2-digit', hour12: false });
  const weekday = at({ weekday: 'short' });
  const date = at({ day: 'numeric', month: 'short' });
  const full = at({
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hour12: false,
  });
  const dated = at({ day: 'numeric', month: 'short', year: 'numeric' });
  const dayKey = new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' });
  const decimalMark =
    new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === 'decimal')?.value ?? '.';
  return {
    time: (instant) => time.format(new Date(instant)),
    dateTime: (instant) => full.format(new Date(instant)),
    date: (instant) => dated.format(new Date(instant)),
    since: (instant) => {
      const then = new Date(instant);
      if (dayKey.format(then) === dayKey.format(new Date())) return time.format(then);
      if (Math.abs(Date.now() - then.getTime()) < 6 * DAY) return `${weekday.format(then)} ${time.format(then)}`;
      return (isFar(then.getTime()) ? dated : date).format(then);
    },
    day: (day) => {
      const at = new Date(`${day}T00:00:00Z`);
      const year = isFar(at.getTime()) ? ({ year: 'numeric' } as const) : {};
      const asked = { timeZone: 'UTC', weekday: 'short', day: 'numeric', month: 'short', ...year } as const;
      return new Intl.DateTimeFormat(locale, asked).format(at);
    },
    dayDated: (day) =>
      new Intl.DateTimeFormat(locale, { timeZone: 'UTC', day: 'numeric', month: 'short', year: 'numeric' }).format(
        new Date(`${day}T00:00:00Z`),
      ),
    span: (from, to = Date.now()) => {
      const ms = Math.max(0, to - Date.parse(from));
      const days = Math.floor(ms / DAY);
      const hours = Math.floor((ms % DAY) / HOUR);
      const minutes = Math.floor((ms % HOUR) / MINUTE);
      if (days > 0) return `${days} d ${hours} h`;
      if (hours > 0) return `${hours} h ${String(minutes).padStart(2, '0')}`;
      return `${minutes} min`;
    },
    money: ({ minor, currency }) => {
      const format = new Intl.NumberFormat(locale, { style: 'currency', currency });
      const digits = format.resolvedOptions().maximumFractionDigits ?? 2;
      const padded = minor.replace('-', '').padStart(digits + 1, '0');
      const text = `${padded.slice(0, padded.length - digits)}${digits === 0 ? '' : `.${padded.slice(-digits)}`}`;
      // A decimal string keeps every digit; the types know only numbers yet.
      return format.format(`${minor.startsWith('-') ? '-' : ''}${text}` as unknown as number);
    },
    moneyEach: ({ minor, currency }, count) => {
      const digits =
        new Intl.NumberFormat(locale, { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
      const more = Number(minor) % count === 0 ? 0 : 2;
      return new Intl.NumberFormat(locale, {
        style: 'currency',
        currency,
        minimumFractionDigits: digits,
        maximumFractionDigits: digits + more,
      }).format(Number(minor) / count / 10 ** digits);
    },
    number: (value, decimals = 0) =>
      new Intl.NumberFormat(locale, { minimumFractionDigits: decimals, maximumFractionDigits: decimals }).format(value),
    decimal: (text) => (decimalMark === '.' ? text : text.replace('.', decimalMark)),
  };
}

/** The shop's own way of writing. Only inside SessionGate. */
export function useFormat(): Format {
  const { shop } = useSession();
  return useMemo(() => formatFor(shop.locale, shop.zone), [shop.locale, shop.zone]);
}
