import { useSession } from './session.tsx';

/** The day it is in a zone, now or at an instant in ms, as days on the wire are written; without one, where the browser stands. */
export const dayIn = (zone?: string, at = Date.now()): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(at);

/** Today in the shop, wherever the browser stands. */
export const useToday = (): string => dayIn(useSession().shop.zone);
