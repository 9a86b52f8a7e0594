const MINUTE = 60_000;

/** An instant as the shop's clock on the wall shows it, in the form of a field for date and time: 2026-11-26T15:07. */
export function wallClockOf(instant: string, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(new Date(instant));
  const of = (type: Intl.DateTimeFormatPartTypes): string => parts.find((part) => part.type === type)?.value ?? '00';
  return `${of('year')}-${of('month')}-${of('day')}T${of('hour')}:${of('minute')}`;
}

/** The instant at which the shop's clock shows this; undefined: it is no time. In the hour that comes twice, the first. */
export function instantOf(wallClock: string, zone: string): string | undefined {
  const asIfUtc = Date.parse(`${wallClock}Z`);
  if (!Number.isFinite(asIfUtc)) return undefined;
  const offsetAt = (instant: number): number =>
    Date.parse(`${wallClockOf(new Date(instant).toISOString(), zone)}Z`) - Math.floor(instant / MINUTE) * MINUTE;
  const candidates = [asIfUtc - offsetAt(asIfUtc - 86_400_000), asIfUtc - offsetAt(asIfUtc + 86_400_000)];
  const fitting = candidates.filter(
    (each) => wallClockOf(new Date(each).toISOString(), zone) === wallClock.slice(0, 16),
  );
  return new Date(Math.min(...(fitting.length > 0 ? fitting : candidates))).toISOString();
}
