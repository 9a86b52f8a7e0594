/** Minutes on the meter as hours with one decimal, as the meter shows them. */
export const hoursText = (minutes: number): string => `${Math.floor(minutes / 60)}.${Math.floor((minutes % 60) / 6)}`;
