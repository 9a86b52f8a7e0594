/** Letters a number with a fixed count of decimals. The app passes one that knows the locale. */
export type FormatNumber = (value: number, decimals: number) => string;

export const plainNumber: FormatNumber = (value, decimals) => value.toFixed(decimals);
