import { afterAll, beforeAll, expect, test } from 'vitest';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import { documentOf } from '#features/specs/draft-service.ts';
import { cloneDemoDatabase, type TestDatabase } from '../support/database.ts';

let shop: TestDatabase;
beforeAll(async () => {
  shop = await cloneDemoDatabase();
}, 240_000);
afterAll(() => shop.drop());

test('every sheet of the demo shop can be written down, and what is written down is without fault', async () => {
  const revisions = await shop.db.sql<{ id: string }[]>`select id from spec_revision`;
  expect(revisions.length).toBeGreaterThanOrEqual(4);
  for (const { id } of revisions) {
    const { document, revision } = await documentOf(shop.db, id);
    const checked = checkSheet(document);
    expect(checked.ok ? [] : checked.faults, revision.familyName).toEqual([]);
    if (!checked.ok) continue;
    const limits = await shop.db.sql`
      select d.code, l.size_class as "sizeClass", l.standard_low as "standardLow", l.standard_high as "standardHigh",
             l.service_low as "serviceLow", l.service_high as "serviceHigh"
      from spec_limit l join spec_dimension d on d.id = l.dimension_id
      where d.revision_id = ${id} and num_nonnulls(l.standard_low, l.standard_high, l.service_low, l.service_high) > 0`;
    const written = checked.sheet.dimensions.flatMap((one) =>
      one.limits.map((limit) => ({ code: one.code, ...limit })),
    );
    const sorted = (of: readonly object[]) =>
      of.map((one) => JSON.stringify(Object.entries(one).toSorted())).toSorted();
    expect(sorted(written), revision.familyName).toEqual(sorted([...limits]));
  }
});
