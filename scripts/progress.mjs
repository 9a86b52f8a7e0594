/**
 * Does one step and says so in one line, with the seconds that it took.
 * @template T
 * @param {string} label what is being done
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(label, work) {
  const started = performance.now();
  process.stdout.write(`${label} …`);
  try {
    const result = await work();
    process.stdout.write(` ${((performance.now() - started) / 1000).toFixed(1)} s\n`);
    return result;
  } catch (error) {
    process.stdout.write('\n');
    throw error;
  }
}
