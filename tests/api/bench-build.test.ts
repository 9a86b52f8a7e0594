import { afterAll, describe, expect, test } from 'vitest';
import { calculationExamples } from '#contracts/build-arithmetic-examples.ts';
import type { CalculationKind } from '#domain/build/calculations/kinds.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

/** As anybody would with curl: no session, no key, no job. */
async function post(kind: CalculationKind, payload: object) {
  const reply = await shop.app.inject({ method: 'POST', url: `/api/bench/${kind}`, payload });
  return { status: reply.statusCode, body: reply.json() };
}
const changed = (kind: CalculationKind, changes: object) => post(kind, { ...calculationExamples[kind], ...changes });
const mm = (value: string) => ({ value, unit: 'mm' });
const deg = (value: string) => ({ value, unit: 'deg' });

describe('a build’s arithmetic at the loose bench', () => {
  test('88.0 × 58.5 mm with 27.4 cm³ left: 355.80 cm³, 13.99, from 68° after bottom 10.73', async () => {
    expect((await post('displacement', calculationExamples.displacement)).body.figures).toMatchObject({
      displacement: { value: '355.80', unit: 'cm3' },
    });
    const { body } = await post('compression-ratio', {
      bore: mm('88.0'),
      stroke: mm('58.5'),
      chamber: { value: '27.4', unit: 'cm3' },
      rodLength: mm('103'),
      intakeClosesAfterBottom: deg('68'),
    });
    expect(body.figures).toMatchObject({
      ratio: { value: '13.99', unit: '1' },
      effectiveRatio: { value: '10.73', unit: '1' },
      squish: null,
    });
    expect(body.cautions.map(({ code }: { code: string }) => code)).toContain('fuel-and-ignition');
  });

  test('a piston that stands proud of its gasket is warned of', async () => {
    const { body } = await changed('compression-ratio', { deck: mm('-0.7') });
    expect(body.figures.squish).toEqual({ value: '-0.100', unit: 'mm' });
    expect(body.cautions[0].code).toBe('piston-meets-head');
  });

  test('sizes stand side by side, each against what is there now', async () => {
    const { body } = await post('bore-comparison', calculationExamples['bore-comparison']);
    expect(body.rows.map(({ name }: { name: string }) => name)).toEqual(['+0.50', 'big bore']);
    expect(body.rows[0].figures).toMatchObject({
      clearanceLeast: mm('0.040'),
      clearanceMost: mm('0.065'),
      cut: mm('0.500'),
    });
    expect(body.rows[1].figures).toMatchObject({
      displacement: { value: '388.89', unit: 'cm3' },
      clearanceLeast: null,
    });
  });
});

describe('what can’t be is refused with its field and the reason', () => {
  const refused = async (kind: CalculationKind, changes: object, pointer: string, words: RegExp) => {
    const { status, body } = await changed(kind, changes);
    expect(status).toBe(422);
    const fault = body.errors.find((error: { pointer: string }) => error.pointer === pointer);
    expect(fault?.detail ?? `nothing at ${pointer}: ${JSON.stringify(body.errors)}`).toMatch(words);
  };

  test.each<[CalculationKind, object, string, RegExp]>([
    ['compression-ratio', { wantedRatio: 0.9 }, '/wantedRatio', /1 or less/],
    ['compression-ratio', { chamber: { value: '-3', unit: 'cm3' } }, '/chamber', /more than 0 cm³/],
    ['compression-ratio', { crown: { value: '-30', unit: 'cm3' } }, '/chamber', /nothing above the piston/],
    ['compression-ratio', { intakeClosesAfterBottom: deg('181') }, '/intakeClosesAfterBottom', /more than 179/],
    ['compression-ratio', { rodLength: mm('29') }, '/rodLength', /longer than the crank’s throw of 29.25 mm/],
    ['compression-ratio', { rodLength: undefined }, '/rodLength', /missing/],
    ['piston-motion', { rodLength: mm('20') }, '/rodLength', /throw/],
    ['piston-motion', { revolutionsPerMinute: 0 }, '/revolutionsPerMinute', /more than 0/],
    ['mixture', { ratio: 0.5 }, '/ratio', /less than 1/],
    ['mixture', { oil: { value: '1', unit: 'L' } }, '/oil', /two of ratio/],
    ['port-timing', { exhaustHeight: mm('60') }, '/exhaustHeight', /never gets there/],
    ['port-timing', { transferHeight: mm('20') }, '/transferHeight', /before the exhaust/],
    ['cam-timing', { intakeClosesAfterBottom: deg('200') }, '/intakeClosesAfterBottom', /more than 180/],
    ['coolant', { pouredStrength: 40 }, '/pouredStrength', /weaker/],
    [
      'bore-comparison',
      { sizes: [{ name: 'x', bore: mm('88.5'), boreMost: mm('88.4') }] },
      '/sizes/0/boreMost',
      /below/,
    ],
  ])('%s with %j', (kind, changes, pointer, words) => refused(kind, changes, pointer, words));

  test('a lift table out of order, at the line where it turns back', () =>
    refused(
      'valve-to-piston',
      {
        table: [
          { at: deg('0'), lift: mm('0') },
          { at: deg('40'), lift: mm('3') },
          { at: deg('30'), lift: mm('5') },
        ],
      },
      '/table/2/at',
      /rise from line to line/,
    ));

  test('every fault is told at once, and a unit of another kind as such', async () => {
    const two = await changed('piston-motion', { stroke: mm('long'), rodLength: mm('-1') });
    expect(two.body.errors).toHaveLength(2);
    const unit = await changed('displacement', { bore: { value: '88', unit: 'deg' } });
    expect(unit.body).toMatchObject({ type: 'urn:crosshatch:problem:unit-wrong', errors: [{ pointer: '/bore' }] });
    expect((await changed('displacement', { colour: 'red' })).status).toBe(400);
  });
});
