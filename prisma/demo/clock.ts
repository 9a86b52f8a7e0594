import { Temporal } from 'temporal-polyfill';

export const shopZone = 'Europe/Amsterdam';

/** Epoch milliseconds. */
export type Instant = number;

const dayStart = 7 * 60 + 30;
const dayEnd = 17 * 60 + 30;
/** Nothing in the demo happened later than this on the anchor day. */
const nowOnTheAnchor = '10:42';

const isWorkday = (day: Temporal.PlainDate): boolean => day.dayOfWeek <= 5;

/** Working days before (−) and after (+) the anchor, which is day 0 whatever day of the week it is. */
export interface Clock {
  readonly anchor: string;
  readonly now: Instant;
  /** `at(-1, '15:30')`: on the working day before the anchor. */
  readonly at: (workday: number, time: string) => Instant;
  /** The calendar day of a working day, ISO. */
  readonly day: (workday: number) => string;
  /** So many calendar days later than an instant's day, ISO. */
  readonly dayAfter: (instant: Instant, days: number) => string;
  /** A hand that moves over working hours only, from a point in them. */
  readonly hand: (workday: number, time: string) => Hand;
}

/** `pass(90)` moves it by working minutes, over nights and weekends, and tells the instant. */
export interface Hand {
  readonly pass: (minutes: number) => Instant;
  readonly now: () => Instant;
}

const minutesOf = (time: string): number => {
  const [hours = '0', minutes = '0'] = time.split(':');
  return Number(hours) * 60 + Number(minutes);
};

/** Counted from noon: clocks change at night, before anybody works. */
const noonOf = (day: Temporal.PlainDate): Instant =>
  day.toZonedDateTime({ timeZone: shopZone, plainTime: { hour: 12 } }).epochMilliseconds;
const fromNoon = (noon: Instant, minutes: number): Instant => noon + (Math.floor(minutes) - 720) * 60_000;
const instantOf = (day: Temporal.PlainDate, minutes: number): Instant => fromNoon(noonOf(day), minutes);

/** The calendar in the shop's zone is asked once an hour: its day never changes within one. */
function dayKeeper(): (instant: Instant) => Temporal.PlainDate {
  const days = new Map<number, Temporal.PlainDate>();
  return (instant) => {
    const hour = Math.floor(instant / 3_600_000);
    const known = days.get(hour);
    if (known !== undefined) return known;
    const day = Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(shopZone).toPlainDate();
    days.set(hour, day);
    return day;
  };
}

export function clockFor(anchor: string): Clock {
  const start = Temporal.PlainDate.from(anchor);
  const days = new Map<number, Temporal.PlainDate>([[0, start]]);
  const dayOf = (offset: number): Temporal.PlainDate => {
    const known = days.get(offset);
    if (known !== undefined) return known;
    const step = offset < 0 ? -1 : 1;
    let day = dayOf(offset - step).add({ days: step });
    while (!isWorkday(day)) day = day.add({ days: step });
    days.set(offset, day);
    return day;
  };
  const noons = new Map<number, Instant>();
  const instantOn = (workday: number, minutes: number): Instant => {
    const noon = noons.get(workday) ?? noonOf(dayOf(workday));
    noons.set(workday, noon);
    return fromNoon(noon, minutes);
  };
  const dayAt = dayKeeper();
  const at = (workday: number, time: string): Instant => instantOn(workday, minutesOf(time));
  const now = at(0, nowOnTheAnchor);
  return {
    anchor,
    now,
    at,
    day: (workday) => dayOf(workday).toString(),
    dayAfter: (instant, later) => dayAt(instant).add({ days: later }).toString(),
    hand: (workday, time) => {
      let day = workday;
      let minute = minutesOf(time);
      const here = (): Instant => instantOn(day, minute);
      return {
        now: here,
        pass: (minutes) => {
          minute += minutes;
          while (minute > dayEnd) {
            minute -= dayEnd - dayStart;
            day += 1;
          }
          return here();
        },
      };
    },
  };
}

/**
 * The day to load the demo for when none is named: the latest one whose last demo minute is past, since a custody that
 * began in the future could not be ended by anybody now.
 */
export function latestAnchor(now: Date): string {
  const instant = Temporal.Instant.fromEpochMilliseconds(now.getTime());
  const today = instant.toZonedDateTimeISO(shopZone).toPlainDate();
  const reached = instantOf(today, minutesOf(nowOnTheAnchor)) < now.getTime();
  return (reached ? today : today.subtract({ days: 1 })).toString();
}

export const isoOf = (instant: Instant): string => new Date(instant).toISOString();
