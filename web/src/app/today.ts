import { useSession } from './session.tsx';

/** The day it is in a zone, as days on the wire are written; without one, where the browser stands. */
export const dayIn = (zone?: string): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(new Date());

/** Today in the shop, wherever the browser stands. */
export const useToday = (): string => dayIn(useSession().shop.zone);
