/** Reads again and again until what is read is as it should be; says so where it never comes to that. */
export async function until<Value>(read: () => Promise<Value>, holds: (value: Value) => boolean): Promise<Value> {
  let last: Value | undefined;
  for (let tries = 0; tries < 150; tries += 1) {
    last = await read();
    if (holds(last)) return last;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`it never came to that, at last: ${JSON.stringify(last)}`);
}
