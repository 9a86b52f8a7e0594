/** What a spreadsheet would take for a formula or a number (a size class +0.25) is led by an apostrophe. */
export const guarded = (text: string): string => (/^['=+@\t\r-]/.test(text) ? `'${text}` : text);

/** The apostrophe that only told a spreadsheet to leave the cell alone is no part of the text. */
export const unguarded = (text: string): string => (/^'['=+@\t\r-]/.test(text) ? text.slice(1) : text);

/** Every cell of a row guarded. */
export const guardedRow = <Column extends string>(row: Readonly<Record<Column, string>>): Record<Column, string> =>
  Object.fromEntries(Object.entries<string>(row).map(([column, text]) => [column, guarded(text)])) as Record<
    Column,
    string
  >;
