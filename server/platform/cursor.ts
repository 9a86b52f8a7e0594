import { ProblemError } from './problem.ts';

const CURSOR = /^(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{1,6})?Z)_([0-9a-f-]{36})$/;

/** The place after an item in a list by instant and id. */
export const cursorOf = ({ at, id }: { readonly at: string; readonly id: string }): string => `${at}_${id}`;

export function afterCursor(text: string | undefined): { readonly at: string; readonly id: string } | undefined {
  if (text === undefined) return undefined;
  const [, at, id] = CURSOR.exec(text) ?? [];
  if (at === undefined || id === undefined || Number.isNaN(Date.parse(at))) {
    throw new ProblemError('invalid-request', 'Pass as `after` what the last page gave as `next`, unchanged.');
  }
  return { at, id };
}
