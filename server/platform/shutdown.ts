import process from 'node:process';
import { StartupFailure } from './startup-failure.ts';

interface Step {
  readonly name: string;
  readonly stop: () => Promise<unknown>;
}

/** A step that takes longer than this is left behind, so that the database still stops cleanly. */
const stepPatience = 10_000;
/** A terminal and npm both pass Ctrl-C on; only a later one means "at once". */
const echoPatience = 2_000;

/** Ends the service in order: what was started last stops first, the database last of all. */
export class Shutdown {
  private readonly steps: Step[] = [];
  private readonly asked = new AbortController();
  private begun: number | undefined;
  private starting: Promise<unknown> = Promise.resolve();

  /** Aborted once the end has begun: a start under way looks at it between its steps. */
  readonly signal = this.asked.signal;

  constructor() {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => this.onSignal());
    process.on('uncaughtException', (error) => void this.because(error));
    process.on('unhandledRejection', (error) => void this.because(error));
  }

  /** Runs the start; an end asked for meanwhile waits until it has noticed, so that nothing is started behind its back. */
  async start(work: () => Promise<void>): Promise<void> {
    const started = work();
    this.starting = started.catch(() => undefined);
    try {
      await started;
    } catch (error) {
      await this.because(error);
    }
  }

  /** Adds a step, to run before those added earlier. */
  atEnd(name: string, stop: () => Promise<unknown>): void {
    this.steps.unshift({ name, stop });
  }

  /** Ends the service on account of a failure: one sentence if it is known, all that is known otherwise. */
  async because(error: unknown): Promise<void> {
    if (this.signal.aborted && error === this.signal.reason) return;
    const text = error instanceof StartupFailure ? error.message : describe(error);
    process.stderr.write(`${text}\n`);
    await this.run(1);
  }

  private onSignal(): void {
    if (this.begun === undefined) {
      process.stdout.write('Stopping …\n');
      void this.run(0);
    } else if (Date.now() - this.begun > echoPatience) {
      process.stderr.write('Stopped at once.\n');
      process.exit(1);
    }
  }

  private async run(code: number): Promise<void> {
    if (this.begun !== undefined) return;
    this.begun = Date.now();
    this.asked.abort();
    await finish({ name: 'start', stop: () => this.starting });
    let worst = code;
    for (let step = this.steps.shift(); step !== undefined; step = this.steps.shift()) {
      const fault = await finish(step);
      if (fault === undefined) continue;
      worst = 1;
      process.stderr.write(`${step.name}: ${fault}\n`);
    }
    process.exit(worst);
  }
}

async function finish({ stop }: Step): Promise<string | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<string>((resolve) => {
    timer = setTimeout(() => resolve(`did not stop within ${stepPatience / 1000} s`), stepPatience);
  });
  try {
    return await Promise.race([stop().then(() => undefined), late]);
  } catch (error) {
    return describe(error);
  } finally {
    clearTimeout(timer);
  }
}

function describe(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
