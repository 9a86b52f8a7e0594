import type { RingFaces, RingPart } from '#domain/build/ring-clock.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

interface RingRow {
  readonly code: string;
  readonly name: string;
  readonly angle: number | null;
  readonly part: RingPart;
  readonly pin: number | null;
  readonly mark: string;
  readonly faces: RingFaces;
}

interface ZoneRow {
  readonly from: number;
  readonly to: number;
  readonly reason: string;
}

/** Rings from the crown down, the zones where no gap may stand, and how far apart gaps have to be; angles in µ°. */
export async function findRings(sql: Sql, revisionId: string) {
  const [rings, zones, [apart]] = [
    await sql<RingRow[]>`
      select code, name, angle_udeg as angle, part, pin_udeg as pin, mark, faces
      from spec_ring where revision_id = ${revisionId} order by ordinal`,
    await sql<ZoneRow[]>`
      select from_udeg as "from", to_udeg as "to", reason from spec_ring_zone where revision_id = ${revisionId} order by from_udeg`,
    await sql<{ separation: number | null; railOffset: number | null }[]>`
      select ring_separation_udeg as separation, rail_offset_udeg as "railOffset" from spec_revision where id = ${revisionId}`,
  ];
  return { rings, zones, separation: apart?.separation ?? null, railOffset: apart?.railOffset ?? null };
}

export interface PlacementRow {
  readonly id: string;
  readonly gaps: readonly {
    readonly ring: string;
    readonly angle: number;
    readonly faces?: 'crown' | 'skirt';
  }[];
  readonly marksWell: boolean;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
  readonly signedById: string | null;
  readonly signedBy: string | null;
}

/** The last placement made since the opening began; an earlier one was for rings that have been out since. */
export async function findPlacement(sql: Sql, jobId: string, since: string | null): Promise<PlacementRow | undefined> {
  const [row] = await sql<PlacementRow[]>`
    select r.id, r.gaps, r.marks_well as "marksWell", p.id as "byId", p.name as by, r.placed_at as at,
           w.id as "signedById", w.name as "signedBy"
    from ring_placement r join person p on p.id = r.placed_by_id
    left join ring_sign_off s on s.placement_id = r.id left join person w on w.id = s.signed_by_id
    where r.job_id = ${jobId} and r.placed_at >= coalesce(${since}::timestamptz, '-infinity')
    order by r.placed_at desc limit 1`;
  return row;
}

export async function insertPlacement(
  sql: Sql,
  placement: {
    jobId: string;
    gaps: PlacementRow['gaps'];
    faults: readonly { ring: string; words: string }[];
    marksWell: boolean;
    byId: string;
  },
): Promise<void> {
  await sql`
    insert into ring_placement (id, job_id, gaps, faults, marks_well, placed_by_id)
    values (${newId()}, ${placement.jobId}, ${sql.json(placement.gaps as never)}, ${sql.json(placement.faults as never)},
            ${placement.marksWell}, ${placement.byId})`;
}

export async function findPlacementToSign(sql: Sql, id: string) {
  const [row] = await sql<{ jobId: string; byId: string; well: boolean; signed: boolean; newest: boolean }[]>`
    select r.job_id as "jobId", r.placed_by_id as "byId", r.marks_well and jsonb_array_length(r.faults) = 0 as well,
           exists (select from ring_sign_off s where s.placement_id = r.id) as signed,
           not exists (select from ring_placement n where n.job_id = r.job_id and n.placed_at > r.placed_at) as newest
    from ring_placement r where r.id = ${id}`;
  return row;
}

export async function insertRingSignOff(sql: Sql, of: { placementId: string; byId: string }): Promise<void> {
  await sql`insert into ring_sign_off (placement_id, signed_by_id) values (${of.placementId}, ${of.byId})`;
}
