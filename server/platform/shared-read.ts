/**
 * One read for all who ask for the same at once: after an act every terminal of a shop reads its view anew, and each would
 * have the same worked out. Who asks while a read runs gets the next one, so that nobody is told what was before they
 * asked. What is read is shared: nobody may change it. A read that fails fails for those who waited for it, and for no
 * later one.
 */
export function sharedRead<T>(read: () => Promise<T>): () => Promise<T> {
  let running: Promise<T> | undefined;
  let next: Promise<T> | undefined;
  const run = (): Promise<T> => {
    const mine = read().finally(() => {
      if (running === mine) running = undefined;
    });
    running = mine;
    return mine;
  };
  const afterThis = async (current: Promise<T>): Promise<T> => {
    await current.catch(() => undefined);
    next = undefined;
    return run();
  };
  return () => {
    if (running === undefined) return next ?? run();
    next ??= afterThis(running);
    return next;
  };
}
