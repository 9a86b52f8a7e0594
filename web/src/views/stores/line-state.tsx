import type { DemandLine } from '#contracts/demands.ts';
import { StateSign } from '../../drawings/state-sign.tsx';
import type { StockState } from '../../drawings/stock-state.ts';

const signs = {
  'pick now': 'pick-now',
  reserved: 'reserved',
  short: 'short',
  issued: 'issued',
  cancelled: 'cancelled',
  'not asked': 'not-asked',
} as const satisfies Record<DemandLine['state'], StockState>;

/** What stores have to do about a line, by shape and word. */
export function LineState({ state }: { readonly state: DemandLine['state'] }) {
  return <StateSign state={signs[state]} />;
}
