import { guarded, unguarded } from '#platform/spreadsheet-text.ts';

/** Beside what a spreadsheet would mistake, what this program would take for the title of a table. */
export const kept = (text: string): string => (/^table$/i.test(text) ? `'${text}` : guarded(text));
export const unkept = (text: string): string => (/^'table$/i.test(text) ? text.slice(1) : unguarded(text));

/** An apostrophe alone: no text, and meant so, where an empty cell would say something else. */
export const nothingSaid = "'";

export const whether = (of: boolean): string => (of ? 'yes' : 'no');

/** A figure with its decimal comma made a point. */
export const pointed = (text: string): string => text.replace(',', '.');
