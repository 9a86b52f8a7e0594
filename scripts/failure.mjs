/** A reason to stop that one sentence explains; anything else that is thrown is a bug and keeps its stack. */
export class Failure extends Error {
  name = 'Failure';
}

/**
 * Runs the work of a script: a Failure ends it with its sentence and exit code 1.
 * @param {() => Promise<void>} work
 */
export async function orExplain(work) {
  try {
    await work();
  } catch (error) {
    process.stderr.write(`${error instanceof Failure ? error.message : error.stack}\n`);
    process.exit(1);
  }
}
