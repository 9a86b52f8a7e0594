import { defineConfig } from 'vitest/config';

/** Browsers and whole services want a core each: two files at a time, once the quick suites are through. */
const afterTheQuickOnes = { maxWorkers: 2, sequence: { groupOrder: 1 } } as const;

/** Suites that need no database or browser are one project; the others start what they need in their global set-up. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'domain',
          include: ['tests/domain/**/*.test.{ts,tsx}', 'tests/outside/**/*.test.ts', 'tests/web/**/*.test.{ts,tsx}'],
        },
      },
      {
        test: {
          name: 'api',
          include: ['tests/api/**/*.test.ts'],
          globalSetup: ['tests/support/global-setup-database.ts'],
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/support/global-setup-database.ts'],
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
