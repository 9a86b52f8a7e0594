import { QueryObserver, queryOptions } from '@tanstack/react-query';
import { afterEach, describe, expect, test } from 'vitest';
import { putOnScreen, queryClient } from '../../../web/src/app/query-client.ts';

/** A read that is answered when it is told to, with what stood when it began. */
function slowly() {
  const answers: (() => void)[] = [];
  const facts = { pulls: 0 };
  const query = queryOptions({
    queryKey: ['slowly'],
    queryFn: ({ signal }) =>
      new Promise<number>((resolve, reject) => {
        const stood = facts.pulls;
        signal.addEventListener('abort', () => reject(new Error('given up')));
        answers.push(() => resolve(stood));
      }),
  });
  return { answers, facts, query };
}
const settled = () => new Promise((resolve) => setTimeout(resolve, 5));
afterEach(() => queryClient.clear());

describe('what the server has just answered', () => {
  test('stays on screen when a read that began before is answered after it', async () => {
    const { answers, facts, query } = slowly();
    const seen: (number | undefined)[] = [];
    const observer = new QueryObserver(queryClient, query);
    const stop = observer.subscribe(({ data, isError }) => seen.push(isError ? -1 : data));
    answers[0]?.();
    await settled();
    void queryClient.invalidateQueries({ queryKey: query.queryKey });
    facts.pulls = 1;
    putOnScreen(query.queryKey, (pulls) => pulls + 1);
    answers[1]?.();
    await settled();
    expect(queryClient.getQueryData(query.queryKey)).toBe(1);
    expect(queryClient.getQueryState(query.queryKey)?.fetchStatus).toBe('idle');
    void queryClient.invalidateQueries({ queryKey: query.queryKey });
    answers[2]?.();
    await settled();
    expect(queryClient.getQueryData(query.queryKey)).toBe(1);
    expect(seen.lastIndexOf(0)).toBeLessThan(seen.indexOf(1));
    expect(seen).not.toContain(-1);
    stop();
  });

  test('leaves the first read of a view alone', async () => {
    const { answers, query } = slowly();
    const stop = new QueryObserver(queryClient, query).subscribe(() => undefined);
    putOnScreen(query.queryKey, (pulls) => pulls + 1);
    answers[0]?.();
    await settled();
    expect(queryClient.getQueryData(query.queryKey)).toBe(0);
    stop();
  });
});
