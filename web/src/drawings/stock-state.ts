/** What a line of a demand is, as the parts clerk acts on it. */
export type StockState = 'pick-now' | 'reserved' | 'short' | 'issued' | 'cancelled' | 'not-asked';
