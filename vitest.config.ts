import { defineConfig } from 'vitest/config';

/**
 * Two files at a time, also where the machine has two cores only, since a file waits for the database much of its time.
 * A worker keeps what it has loaded for its next file: no test here replaces a module or changes the process.
 */
const twoAtATime = { maxWorkers: 2, isolate: false, sequence: { groupOrder: 0 } } as const;

/** Browsers and whole services want a core each: once the quick suites are through. */
const afterTheQuickOnes = { maxWorkers: 2, sequence: { groupOrder: 1 } } as const;

/** Suites that need no database or browser are one project; the others start what they need in their global set-up. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'domain',
          include: ['tests/domain/**/*.test.{ts,tsx}', 'tests/outside/**/*.test.ts', 'tests/web/**/*.test.{ts,tsx}'],
          testTimeout: 20_000,
          ...twoAtATime,
        },
      },
      {
        test: {
          name: 'api',
          include: ['tests/api/**/*.test.ts', 'tests/drills/**/*.test.ts'],
          globalSetup: ['tests/support/global-setup-database.ts'],
          testTimeout: 30_000,
          hookTimeout: 60_000,
          ...twoAtATime,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/support/global-setup-database.ts', 'tests/support/global-setup-browser.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          ...afterTheQuickOnes,
        },
      },
      {
        test: {
          name: 'start',
          include: ['tests/start/**/*.test.ts'],
          globalSetup: ['tests/support/global-setup-database.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          ...afterTheQuickOnes,
        },
      },
    ],
  },
});
