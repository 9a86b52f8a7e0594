import { app } from './app.ts';
import { engine } from './engine.ts';
import { floor } from './floor.ts';
import { stores } from './stores.ts';

/** English. One module a view, so that a view and its words are found together by name. */
export const en = { app, engine, floor, stores } as const;
