/**
 * What a spreadsheet would take for a formula or a number (a size class +0.25), and what this program would take for
 * the title of a table, is led by an apostrophe.
 */
export const kept = (text: string): string => (/^(['=+@-]|table$)/i.test(text) ? `'${text}` : text);
/** The apostrophe that only told a spreadsheet to leave the cell alone is no part of the text. */
export const unkept = (text: string): string => (/^'(['=+@-]|table$)/i.test(text) ? text.slice(1) : text);

/** An apostrophe alone: no text, and meant so, where an empty cell would say something else. */
export const nothingSaid = "'";

export const whether = (of: boolean): string => (of ? 'yes' : 'no');

/** A figure with its decimal comma made a point. */
export const pointed = (text: string): string => text.replace(',', '.');
