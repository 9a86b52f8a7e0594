import type { Models, Sql } from '#platform/database/client.ts';

export interface DimensionRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly placeCode: string;
  readonly kind: string;
  readonly unit: string;
  readonly decimals: number;
  readonly method: string;
  readonly boreRule: string | null;
  readonly readingsOf: string | null;
  readonly minuend: string | null;
  readonly subtrahend: string | null;
  readonly numerator: string | null;
  readonly denominator: string | null;
  readonly scale: number | null;
  readonly stated: number | null;
  readonly rule: string;
  readonly inside: boolean;
  readonly nominal: number | null;
  readonly plausibleSpan: number | null;
  readonly instrumentKind: string;
  readonly caution: string;
  readonly source: string;
  readonly page: string;
}

export interface PositionRow {
  readonly dimensionId: string;
  readonly code: string;
  readonly label: string;
  readonly level: number | null;
  readonly axis: string | null;
  readonly heightNm: number | null;
}

export interface LimitRow {
  readonly dimensionId: string;
  readonly sizeClass: string;
  readonly standardLow: number | null;
  readonly standardHigh: number | null;
  readonly serviceLow: number | null;
  readonly serviceHigh: number | null;
}

export interface PlaceRow {
  readonly code: string;
  readonly name: string;
  readonly layer: string | null;
  readonly material: string;
  readonly alphaPpb: number;
  readonly alphaUPpb: number;
  readonly plated: boolean;
}

export interface RevisionRow {
  readonly id: string;
  readonly number: number;
  readonly familyId: string;
  readonly familyName: string;
  readonly figuresInvented: boolean;
}

export async function findRevision(sql: Sql, id: string): Promise<RevisionRow | undefined> {
  const [row] = await sql<RevisionRow[]>`
    select r.id, r.number, r.family_id as "familyId", f.name as "familyName", r.figures_invented as "figuresInvented"
    from spec_revision r join family f on f.id = r.family_id where r.id = ${id}`;
  return row;
}

export async function findPlaces(sql: Sql, revisionId: string): Promise<readonly PlaceRow[]> {
  return sql<PlaceRow[]>`
    select code, name, layer, material, alpha_ppb as "alphaPpb", alpha_u_ppb as "alphaUPpb", plated
    from spec_place where revision_id = ${revisionId} order by ordinal, code`;
}

export async function findDimensions(sql: Sql, revisionId: string): Promise<readonly DimensionRow[]> {
  return sql<DimensionRow[]>`
    select id, code, name, place_code as "placeCode", kind, unit, decimals, method, bore_rule as "boreRule",
           readings_of as "readingsOf", minuend, subtrahend, numerator, denominator, scale, stated, decision_rule as rule, inside, nominal,
           plausible_span as "plausibleSpan", instrument_kind as "instrumentKind", caution, source, page
    from spec_dimension where revision_id = ${revisionId} order by ordinal, code`;
}

export async function findPositions(sql: Sql, revisionId: string): Promise<readonly PositionRow[]> {
  return sql<PositionRow[]>`
    select p.dimension_id as "dimensionId", p.code, p.label, p.level, p.axis, p.height_nm as "heightNm"
    from spec_position p join spec_dimension d on d.id = p.dimension_id
    where d.revision_id = ${revisionId} order by p.ordinal, p.code`;
}

export async function findLimits(sql: Sql, revisionId: string): Promise<readonly LimitRow[]> {
  return sql<LimitRow[]>`
    select l.dimension_id as "dimensionId", l.size_class as "sizeClass", l.standard_low as "standardLow",
           l.standard_high as "standardHigh", l.service_low as "serviceLow", l.service_high as "serviceHigh"
    from spec_limit l join spec_dimension d on d.id = l.dimension_id
    where d.revision_id = ${revisionId} order by (l.size_class <> 'standard'), l.size_class`;
}

/** What is on a sheet beside its places and dimensions. */
export async function findRest(db: Models, revisionId: string) {
  const byOrdinal = { orderBy: { ordinal: 'asc' } } as const;
  return db.specRevision.findUnique({
    where: { id: revisionId },
    include: {
      family: true,
      publishedBy: true,
      specFastenerSets: {
        orderBy: { code: 'asc' },
        include: { specFasteners: { orderBy: { number: 'asc' } }, specFastenerStages: byOrdinal },
      },
      specRings: byOrdinal,
      specRingZones: { orderBy: { fromUdeg: 'asc' } },
      specValves: byOrdinal,
      specProofs: byOrdinal,
    },
  });
}

export async function findFamilies(db: Models) {
  return db.family.findMany({
    orderBy: { name: 'asc' },
    include: { specRevisions: { where: { publishedAt: { not: null } }, orderBy: { number: 'desc' }, take: 1 } },
  });
}
