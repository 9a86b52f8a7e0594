/** A share as it is said: one decimal, and never a certainty that it isn't. */
export const percent = (share: number): string =>
  share < 0.001 ? '< 0.1 %' : share > 0.999 ? '> 99.9 %' : `${(share * 100).toFixed(1)} %`;
