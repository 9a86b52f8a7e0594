import { newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';

/** The invented Halden 355: a published revision small enough to reason about. All figures invented. */
export interface SpecSheet {
  readonly familyId: string;
  readonly revisionId: string;
}

const places = [
  ['cylinder', 'Cylinder', 'cylinder', 23_000],
  ['piston', 'Piston', 'cylinder', 20_000],
  ['ring 1', 'Top ring', 'cylinder', 11_500],
  ['connecting rod', 'Connecting rod', 'case', 11_500],
] as const;

interface Dimension {
  readonly code: string;
  readonly name: string;
  readonly place: string;
  readonly method: string;
  readonly readingsOf?: string;
  readonly minuend?: string;
  readonly subtrahend?: string;
  /** Bounds in micrometres; none: no bound. */
  readonly standard: readonly [number | null, number | null];
  readonly service: readonly [number | null, number | null];
  /** What is physically possible, in micrometres: nominal, and how far from it. */
  readonly plausible?: readonly [number, number];
  /** The limits of the first oversize. */
  readonly bored?: {
    readonly standard: readonly [number, number];
    readonly service: readonly [number | null, number | null];
  };
}

/** What another family's sheet has otherwise. */
interface Otherwise {
  readonly code: string;
  readonly name: string;
  readonly platedCylinder?: boolean;
  /** The ring's end gap is taken at the top and at the bottom of the bore. */
  readonly gapAtTwoHeights?: boolean;
  readonly boreRule?: 'per-level' | 'extremes';
  /** The piston's clearance is taken by feeler too. */
  readonly clearanceByFeeler?: boolean;
}
const byFeeler: Dimension = {
  code: 'clearance-by-feeler',
  name: 'Clearance by feeler',
  place: 'piston',
  method: 'interval',
  standard: [30, 60],
  service: [null, 120],
};
const halden: Otherwise = { code: 'H355', name: 'Halden 355' };

const dimensions: readonly Dimension[] = [
  {
    code: 'bore',
    name: 'Bore, size',
    place: 'cylinder',
    method: 'size',
    standard: [88_000, 88_015],
    service: [null, 88_050],
    plausible: [88_000, 3_000],
    bored: { standard: [88_250, 88_265], service: [null, 88_300] },
  },
  {
    code: 'bore-out-of-round',
    name: 'Bore, out-of-round',
    place: 'cylinder',
    method: 'out-of-round',
    readingsOf: 'bore',
    standard: [null, 10],
    service: [null, 30],
  },
  {
    code: 'bore-taper',
    name: 'Bore, taper',
    place: 'cylinder',
    method: 'taper',
    readingsOf: 'bore',
    standard: [null, 10],
    service: [null, 30],
  },
  {
    code: 'piston',
    name: 'Piston, size',
    place: 'piston',
    method: 'single',
    standard: [87_955, 87_970],
    service: [87_925, null],
    plausible: [88_000, 3_000],
    bored: { standard: [88_205, 88_220], service: [88_175, null] },
  },
  {
    code: 'clearance',
    name: 'Clearance, bore − piston',
    place: 'piston',
    method: 'difference',
    minuend: 'bore',
    subtrahend: 'piston',
    standard: [30, 60],
    service: [null, 120],
  },
  {
    code: 'ring-gap-top',
    name: 'Ring end gap, top',
    place: 'ring 1',
    method: 'interval',
    standard: [250, 400],
    service: [null, 600],
  },
  {
    code: 'big-end-play',
    name: 'Big end, radial play felt',
    place: 'connecting rod',
    method: 'felt',
    standard: [null, 0],
    service: [null, null],
  },
];

const nanometresOf = (micrometres: number | null): number | null => (micrometres === null ? null : micrometres * 1000);

export async function insertSpecSheet(
  sql: SqlPool,
  publishedById: string,
  otherwise: Otherwise = halden,
): Promise<SpecSheet> {
  const familyId = newId();
  const revisionId = newId();
  await sql`
    insert into family (id, code, name, cycle, cooling, bore_nm, stroke_nm)
    values (${familyId}, ${otherwise.code}, ${otherwise.name}, 'four-stroke', 'water', 88000000, 58500000)`;
  await sql`insert into spec_revision (id, family_id, number, figures_invented) values (${revisionId}, ${familyId}, 1, true)`;
  for (const [index, [code, name, layer, alpha]] of places.entries()) {
    await sql`
      insert into spec_place (id, revision_id, code, name, ordinal, layer, material, alpha_ppb, plated)
      values (${newId()}, ${revisionId}, ${code}, ${name}, ${index + 1}, ${layer}, 'alloy', ${alpha},
              ${code === 'cylinder' && otherwise.platedCylinder === true})`;
  }
  for (const [index, dimension] of [
    ...dimensions,
    ...(otherwise.clearanceByFeeler === true ? [byFeeler] : []),
  ].entries())
    await insertDimension(sql, { revisionId, ordinal: index + 1, dimension, otherwise });
  await sql`update spec_revision set published_at = clock_timestamp(), published_by_id = ${publishedById} where id = ${revisionId}`;
  return { familyId, revisionId };
}

async function insertDimension(
  sql: SqlPool,
  of: { revisionId: string; ordinal: number; dimension: Dimension; otherwise: Otherwise },
): Promise<void> {
  const { revisionId, ordinal, dimension, otherwise } = of;
  const id = newId();
  const bore = ['size', 'out-of-round', 'taper'].includes(dimension.method);
  const boreRule = bore ? (otherwise.boreRule ?? 'per-level') : null;
  const [nominal, span] = (dimension.plausible ?? [null, null]).map(nanometresOf);
  await sql`
    insert into spec_dimension (id, revision_id, code, name, ordinal, place_code, kind, unit, decimals, method, bore_rule,
                                readings_of, minuend, subtrahend, nominal, plausible_span)
    values (${id}, ${revisionId}, ${dimension.code}, ${dimension.name}, ${ordinal}, ${dimension.place}, 'length', 'mm', 3,
            ${dimension.method}, ${boreRule}, ${dimension.readingsOf ?? null}, ${dimension.minuend ?? null}, ${dimension.subtrahend ?? null},
            ${nominal ?? null}, ${span ?? null})`;
  await insertLimits(sql, { dimensionId: id, sizeClass: 'standard', ...dimension });
  if (dimension.bored !== undefined)
    await insertLimits(sql, { dimensionId: id, sizeClass: '+0.25', ...dimension.bored });
  await insertPositions(sql, id, { ...dimension, atTwoHeights: otherwise.gapAtTwoHeights === true });
}

async function insertLimits(
  sql: SqlPool,
  of: { dimensionId: string; sizeClass: string } & Pick<Dimension, 'standard' | 'service'>,
): Promise<void> {
  const [low, high] = of.standard.map(nanometresOf);
  const [serviceLow, serviceHigh] = of.service.map(nanometresOf);
  await sql`
    insert into spec_limit (id, dimension_id, size_class, standard_low, standard_high, service_low, service_high)
    values (${newId()}, ${of.dimensionId}, ${of.sizeClass}, ${low ?? null}, ${high ?? null}, ${serviceLow ?? null}, ${serviceHigh ?? null})`;
}

/** The bore at three heights and two axes; everything else at one place; what is worked out from others at none. */
async function insertPositions(
  sql: SqlPool,
  dimensionId: string,
  dimension: Dimension & { readonly atTwoHeights: boolean },
): Promise<void> {
  if (dimension.readingsOf !== undefined || dimension.method === 'difference') return;
  const positions =
    dimension.method === 'size'
      ? [10, 40, 65].flatMap((height, level) =>
          (['across', 'along'] as const).map((axis) => ({
            code: `${'ABC'[level]}-${axis}`,
            level: level + 1,
            axis,
            height,
          })),
        )
      : dimension.method === 'interval' && dimension.atTwoHeights
        ? ['top', 'bottom'].map((code, index) => ({ code, level: index + 1, axis: null, height: null }))
        : [{ code: '1', level: null, axis: null, height: null }];
  for (const [index, { code, level, axis, height }] of positions.entries()) {
    await sql`
      insert into spec_position (id, dimension_id, code, label, ordinal, level, axis, height_nm)
      values (${newId()}, ${dimensionId}, ${code}, ${code}, ${index + 1}, ${level}, ${axis}, ${height === null ? null : height * 1_000_000})`;
  }
}
