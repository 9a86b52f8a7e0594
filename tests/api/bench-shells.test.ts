import { afterAll, describe, expect, test } from 'vitest';
import { LooseShells } from '#contracts/loose-shells.ts';
import type { Answer } from '../support/client.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

const post = async (payload: object): Promise<Answer> => {
  const reply = await shop.app.inject({ method: 'POST', url: '/api/bench/bearing-shells', payload });
  return { status: reply.statusCode, body: reply.json(), headers: reply.headers };
};
const mm = (value: string) => ({ value, unit: 'mm' });
const example = LooseShells.parse(Object.values(LooseShells.meta()?.examples ?? {})[0]);

describe('shells by the classes of journal and housing', () => {
  test('a measured journal in a marked housing: one grade, and the clearance that it leaves', async () => {
    const { status, body } = await post(example);
    expect(status).toBe(200);
    // 39.009 to 39.016, less 35.988 ± 0.002, less twice 1.490 to 1.494.
    expect(body).toMatchObject({
      grade: 'black',
      grades: [{ grade: 'black', clearance: { low: '0.031', high: '0.050', unit: 'mm' } }],
      journals: ['1'],
      housings: ['B'],
    });
  });

  test('a journal whose uncertainty reaches into the next class leaves the grade open, and says which it may be', async () => {
    const { body } = await post({ ...example, journal: { diameter: mm('35.992'), uncertainty: mm('0.002') } });
    expect(body).toMatchObject({ grade: null, journals: ['1', '2'] });
    expect(body.grades.map(({ grade }: { grade: string }) => grade)).toEqual(['black', 'brown']);
    expect(body.words).toContain('black or brown');
  });

  test.each([
    [{ journal: { mark: '9' } }, '/journal/mark'],
    [{ journal: { diameter: mm('35.900') } }, '/journal/diameter'],
    [{ journal: { diameter: mm('0') } }, '/journal/diameter'],
    [{ journal: { diameter: { value: '35.9', unit: 'N·m' } } }, '/journal/diameter'],
    [{ journal: { diameter: mm('35.988'), uncertainty: mm('-0.002') } }, '/journal/uncertainty'],
    [{ choices: example.choices.slice(0, 1) }, '/choices'],
    [{ choices: [...example.choices, ...example.choices.slice(0, 1)] }, '/choices/4'],
    [{ journals: [...example.journals, ...example.journals.slice(0, 1)] }, '/journals/2/mark'],
    [{ housings: [{ mark: 'B', low: mm('39.016'), high: mm('39.009') }] }, '/housings/0'],
    [{ shells: [{ grade: 'black', low: mm('1.494'), high: mm('1.490') }] }, '/shells/0'],
  ])('%o is refused, and names where', async (changed, pointer) => {
    const { status, body } = await post({ ...example, ...changed });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe(pointer);
  });
});
