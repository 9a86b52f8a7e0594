import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { insertSpecSheet } from '../support/spec-sheet.ts';

/** Dimensions that only this sheet knows: no line of the program names a chain or a spring. */
const shop = await openShop();
afterAll(shop.close);

const { technician } = shop.as;
let sheet = shop.sheet;

const dimensions = [
  { code: 'chain', method: 'single', kind: 'length', unit: 'mm', decimals: 2 },
  { code: 'chain-new', method: 'stated', stated: 127_000_000, kind: 'length', unit: 'mm', decimals: 1 },
  {
    code: 'chain-longer',
    method: 'difference',
    minuend: 'chain',
    subtrahend: 'chain-new',
    kind: 'length',
    unit: 'mm',
    decimals: 2,
  },
  {
    code: 'chain-stretch',
    method: 'ratio',
    numerator: 'chain-longer',
    denominator: 'chain-new',
    kind: 'ratio',
    unit: '%',
    decimals: 2,
    rule: 'guard-factor-1.3',
    high: 10_000,
  },
] as const;

beforeAll(async () => {
  const { sql } = shop;
  await insertInstruments(sql, shop.people.lead);
  const { familyId } = await insertSpecSheet(sql, shop.people.lead, { code: 'C355', name: 'Halden with a chain' });
  const revisionId = newId();
  await sql`insert into spec_revision (id, family_id, number, figures_invented) values (${revisionId}, ${familyId}, 2, true)`;
  await sql`
    insert into spec_place (id, revision_id, code, name, ordinal, layer, material, alpha_ppb, plated)
    values (${newId()}, ${revisionId}, 'cam chain', 'Cam chain', 1, 'cover', 'steel', 11500, false)`;
  for (const [index, dimension] of dimensions.entries()) {
    const of: Record<string, string | number> = { ...dimension };
    const id = newId();
    await sql`
      insert into spec_dimension (id, revision_id, code, name, ordinal, place_code, kind, unit, decimals, method, minuend, subtrahend,
                                  numerator, denominator, stated, decision_rule)
      values (${id}, ${revisionId}, ${dimension.code}, ${dimension.code}, ${index + 1}, 'cam chain', ${dimension.kind}, ${dimension.unit},
              ${dimension.decimals}, ${dimension.method}, ${of.minuend ?? null}, ${of.subtrahend ?? null}, ${of.numerator ?? null},
              ${of.denominator ?? null}, ${of.stated ?? null}, ${of.rule ?? 'iso-14253-1-2017'})`;
    if (dimension.method === 'single')
      await sql`insert into spec_position (id, dimension_id, code, label, ordinal) values (${newId()}, ${id}, '1', '1', 1)`;
    if (of.high !== undefined)
      await sql`insert into spec_limit (id, dimension_id, service_high) values (${newId()}, ${id}, ${of.high})`;
  }
  await sql`update spec_revision set published_at = clock_timestamp(), published_by_id = ${shop.people.lead} where id = ${revisionId}`;
  sheet = { familyId, revisionId };
});

const keyed = async (value: string, serial: string) => {
  const { jobId } = await takeIn({ ...shop, sheet }, { serial });
  const answer = await technician.post(`/api/jobs/${jobId}/readings`, {
    round: 'as received',
    dimension: 'chain',
    readings: [{ position: '1', text: value, unit: 'mm', repeat: 1, instrumentCode: 'BG-2' }],
  });
  return { jobId, answer };
};

describe('a dimension that only a spec sheet knows', () => {
  test('is worked out from what is keyed, judged by its own rule, and printed on the build sheet', async () => {
    const { jobId, answer } = await keyed('127.90', 'C-1');
    expect(answer.status).toBe(201);
    const stretch = answer.body.findings.find(({ dimension }: { dimension: string }) => dimension === 'chain-stretch');
    expect(stretch).toMatchObject({
      verdict: 'within service limit',
      rule: 'guard-factor-1.3',
      value: { type: 'point', unit: '%' },
    });
    // (127.90 − 127.0) / 127.0.
    expect(Number(stretch.value.low)).toBeCloseTo(0.70866, 4);
    const printed = await technician.get(`/api/jobs/${jobId}/sheet`);
    expect(JSON.stringify(printed.body)).toContain('chain-stretch');
  });

  test('past its limit it opens an obligation', async () => {
    const { jobId, answer } = await keyed('128.60', 'C-2');
    const stretch = answer.body.findings.find(({ dimension }: { dimension: string }) => dimension === 'chain-stretch');
    expect(stretch.verdict).toBe('past the limit');
    const { items } = (await technician.get(`/api/jobs/${jobId}/obligations`)).body;
    expect(items).toHaveLength(1);
    expect(items[0].words).toContain('chain-stretch');
  });

  test('what the sheet states, or works out, is not keyed', async () => {
    const { jobId } = await takeIn({ ...shop, sheet }, { serial: 'C-3' });
    for (const [dimension, words] of [
      ['chain-new', 'stated by the spec sheet'],
      ['chain-stretch', 'worked out from chain-longer and chain-new'],
    ]) {
      const reply = await technician.post(`/api/jobs/${jobId}/readings`, {
        round: 'as received',
        dimension,
        readings: [{ position: '1', text: '1', unit: 'mm', repeat: 1, instrumentCode: 'BG-2' }],
      });
      expect(reply.status).toBe(422);
      expect(JSON.stringify(reply.body)).toContain(words);
    }
  });

  test('the sheet tells how it is worked out', async () => {
    const { body } = await technician.get(`/api/spec-revisions/${sheet.revisionId}`);
    const of = (code: string) => body.dimensions.find((dimension: { code: string }) => dimension.code === code);
    expect(of('chain-stretch')).toMatchObject({
      method: 'ratio',
      numerator: 'chain-longer',
      denominator: 'chain-new',
      scale: null,
    });
    expect(of('chain-new')).toMatchObject({ method: 'stated', stated: { value: '127.0', unit: 'mm' } });
  });
});
