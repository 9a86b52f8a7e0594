import type { Database } from '../../server/platform/database/client.ts';

export interface DemoOptions {
  /** The demo's "today", an ISO day. */
  readonly anchor: string;
  /** When others can reach the service, PINs are random and printed once. */
  readonly loopback: boolean;
}

/**
 * Loads the demo shop when the database holds nothing yet.
 * @returns the lines to print at the start (how to sign in), or undefined when nothing was loaded
 */
export async function loadDemoIfEmpty(_db: Database, _options: DemoOptions): Promise<readonly string[] | undefined> {
  return undefined;
}
