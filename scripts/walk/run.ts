/**
 * `npm run walk [-- http://127.0.0.1:8080]`: takes one invented engine through the whole job over the public API of a
 * running server with the demo shop in it, prints what happened, and ends in the build sheet's address.
 */
import { walkThrough } from './walk.ts';

const base = (process.argv[2] ?? 'http://127.0.0.1:8080').replace(/\/$/, '');
walkThrough(base).catch((error: unknown) => {
  console.error(`\nThe walk stopped. ${error instanceof Error ? error.message : String(error)}`);
  process.exitCode = 1;
});
