import { describe, expect, test } from 'vitest';
import { sharedRead } from '#platform/shared-read.ts';

/** A read that ends when it is told to, and answers what stood when it began. */
function slowRead() {
  const begun: { readonly end: () => void; readonly fail: () => void }[] = [];
  let facts = 0;
  const read = sharedRead(() => {
    const stood = facts;
    return new Promise<number>((resolve, reject) => {
      begun.push({ end: () => resolve(stood), fail: () => reject(new Error(`read of ${stood} failed`)) });
    });
  });
  const settled = () => new Promise((resolve) => setImmediate(resolve));
  return {
    read,
    begun,
    act: () => {
      facts += 1;
    },
    settled,
  };
}

describe('a read shared by all who ask at once', () => {
  test('is worked out twice for eight who ask while one is running, and the next is for all of them', async () => {
    const { read, begun, settled } = slowRead();
    const asked = Array.from({ length: 8 }, () => read());
    expect(begun).toHaveLength(1);
    begun[0]?.end();
    await settled();
    expect(begun).toHaveLength(2);
    begun[1]?.end();
    await Promise.all(asked);
    expect(begun).toHaveLength(2);
  });

  test('never tells what was before it was asked for', async () => {
    const { read, begun, act, settled } = slowRead();
    const early = read();
    act();
    const late = read();
    begun[0]?.end();
    await settled();
    act();
    const later = read();
    begun[1]?.end();
    await settled();
    begun[2]?.end();
    expect(await Promise.all([early, late, later])).toEqual([0, 1, 2]);
  });

  test('that was asked for in the moment one ended shares the one that begins', async () => {
    const { read, begun } = slowRead();
    const first = read();
    const second = read();
    begun[0]?.end();
    await first;
    const third = read();
    await new Promise((resolve) => setImmediate(resolve));
    expect(begun.length).toBeLessThanOrEqual(2);
    for (const { end } of begun) end();
    expect(await Promise.all([second, third])).toEqual([0, 0]);
  });

  test('fails for those who waited for it, and for no later one', async () => {
    const { read, begun, settled } = slowRead();
    const first = read();
    const second = read();
    begun[0]?.fail();
    await expect(first).rejects.toThrow('read of 0 failed');
    await settled();
    begun[1]?.end();
    expect(await second).toBe(0);
    const third = read();
    begun[2]?.end();
    expect(await third).toBe(0);
  });
});
