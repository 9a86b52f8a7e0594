import { app } from './app.ts';

/** English. One module a view, so that a view and its words are found together by name. */
export const en = { app } as const;
