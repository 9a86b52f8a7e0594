/** A pattern for `ilike` that finds a text anywhere; signs of a pattern in it are only signs. */
export const containing = (text: string): string => `%${text.replace(/[\\%_]/g, '\\$&')}%`;
