import type { ChangeParts, PartFact, PartsChanged } from '#contracts/part-changes.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { textOrNull } from '../parts/form-service.ts';
import { findVendor } from '../receiving/queries.ts';
import { differences, refuseNothing } from './changing.ts';
import { lockParts, type PartStanding, writeParts } from './queries.ts';

function changed(of: PartStanding, asked: ChangeParts, vendor: string | null | undefined): PartStanding {
  return {
    part: of.part,
    reorderPoint: asked.reorderPoint ?? of.reorderPoint,
    sizeClass: asked.sizeClass === undefined ? of.sizeClass : textOrNull(asked.sizeClass),
    grade: asked.grade?.trim() ?? of.grade,
    placeCode: asked.placeCode === undefined ? of.placeCode : textOrNull(asked.placeCode),
    oneTime: asked.oneTime ?? of.oneTime,
    vendorId: asked.vendorId === undefined ? of.vendorId : asked.vendorId,
    vendor: vendor === undefined ? of.vendor : vendor,
  };
}

const facts = ['reorderPoint', 'sizeClass', 'grade', 'placeCode', 'oneTime', 'vendor'] as const satisfies PartFact[];

async function vendorNamed(sql: Sql, id: string | null | undefined): Promise<string | null | undefined> {
  if (id === undefined || id === null) return id;
  const vendor = found(await findVendor(sql, id), 'such vendor');
  if (vendor.retired) {
    throw new ProblemError('refused', `Nothing is bought from ${vendor.name} any more.`, {
      errors: [{ pointer: '/vendorId', detail: 'is a vendor that nothing is bought from any more' }],
    });
  }
  return vendor.name;
}

/** What becomes of each part, under a lock on all of them. */
async function outlook(sql: Sql, asked: ChangeParts) {
  const { partIds, ...set } = asked;
  refuseNothing(Object.keys(set).length === 0);
  const vendor = await vendorNamed(sql, asked.vendorId);
  const parts = await lockParts(sql, partIds);
  const known = new Set(parts.map(({ part }) => part.id));
  const errors = partIds.flatMap((id, at) =>
    known.has(id) ? [] : [{ pointer: `/partIds/${at}`, detail: 'is no part that is known here' }],
  );
  if (errors.length > 0) throw new ProblemError('not-found', 'A part is not known. Nothing was changed.', { errors });
  const rows = parts
    .map((from) => ({ from, to: changed(from, asked, vendor) }))
    .map((row) => ({ ...row, changes: differences(facts, row.from, row.to) }))
    .filter(({ changes }) => changes.length > 0);
  const items = rows.map(({ from, changes }) => ({ part: from.part, changes }));
  return { rows, told: { items, unchanged: parts.length - rows.length } satisfies PartsChanged };
}

/** Changes several parts in one act, which keeps from what to what it changed each. */
export async function changeParts(act: Act, asked: ChangeParts): Promise<PartsChanged> {
  const { rows, told: done } = await outlook(act.sql, asked);
  await writeParts(
    act.sql,
    rows.map(({ to }) => ({ id: to.part.id, ...to })),
  );
  await act.event('parts.changed', {
    data: { parts: done.items.map(({ part, changes }) => ({ number: part.number, changes })) },
  });
  return done;
}
