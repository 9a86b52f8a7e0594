import { formatQuantity } from '#domain/units/format-quantity.ts';
import type { RingFault } from './ring-clock.ts';

const degrees = (value: number): string => `${formatQuantity(value, 'deg', 0)}°`;

/** What is wrong with where a ring's gap stands, as half a sentence: "stands where no gap may: the pin (80° to 100°)". Angles in µ°. */
export function ringFaultWords(fault: RingFault): string {
  switch (fault.kind) {
    case 'not-placed':
      return 'not placed yet';
    case 'angle-out-of-turn':
      return `${degrees(fault.angle)} is no angle from 0° to below 360°`;
    case 'too-close':
      return `only ${degrees(fault.separation)} from ${fault.to}, at least ${degrees(fault.least)} is asked for`;
    case 'off-its-pin':
      return `a pin holds its gap at ${degrees(fault.pin)}: it isn’t turned`;
    case 'mark-not-seen':
      return `nobody looked whether its mark faces the ${fault.faces}`;
    case 'mark-wrong-way':
      return `its mark has to face the ${fault.faces}: turn the ring over`;
    case 'in-forbidden-zone':
      return `stands where no gap may: ${fault.zone.reason} (${degrees(fault.zone.from)} to ${degrees(fault.zone.to)})`;
    case 'away-from-makers-angle':
      return `${degrees(fault.by)} away from the maker’s ${degrees(fault.makersAngle)}`;
  }
}

/** The same as a sentence of its own. */
export function ringFaultSentence(fault: RingFault): string {
  const words = ringFaultWords(fault);
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
