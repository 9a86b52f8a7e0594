import type { CheckedSheet } from '#domain/spec-sheet/checked.ts';
import type { SheetDocument } from '#domain/spec-sheet/document.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** Takes away everything on a draft but its own row. */
export async function deleteSheetRows(sql: Sql, revisionId: string): Promise<void> {
  const dimensions = sql`select id from spec_dimension where revision_id = ${revisionId}`;
  const sets = sql`select id from spec_fastener_set where revision_id = ${revisionId}`;
  await sql`delete from spec_position where dimension_id in (${dimensions})`;
  await sql`delete from spec_limit where dimension_id in (${dimensions})`;
  await sql`delete from spec_dimension where revision_id = ${revisionId}`;
  await sql`delete from spec_fastener where set_id in (${sets})`;
  await sql`delete from spec_fastener_stage where set_id in (${sets})`;
  await sql`delete from spec_fastener_set where revision_id = ${revisionId}`;
  await sql`delete from spec_place where revision_id = ${revisionId}`;
  await sql`delete from spec_ring where revision_id = ${revisionId}`;
  await sql`delete from spec_ring_zone where revision_id = ${revisionId}`;
  await sql`delete from spec_valve where revision_id = ${revisionId}`;
  await sql`delete from spec_proof where revision_id = ${revisionId}`;
}

type Row = Readonly<Record<string, string | number | boolean | null>>;

/** Rows are sent a few hundred at a time: a statement takes a limited number of values. */
async function insertAll(sql: Sql, table: string, rows: readonly Row[]): Promise<void> {
  const most = 400;
  for (let from = 0; from < rows.length; from += most) {
    await sql`insert into ${sql(table)} ${sql(rows.slice(from, from + most))}`;
  }
}

function dimensionRows(revisionId: string, { dimensions }: CheckedSheet) {
  const rows: Record<'spec_dimension' | 'spec_position' | 'spec_limit', Row[]> = {
    spec_dimension: [],
    spec_position: [],
    spec_limit: [],
  };
  for (const [index, dimension] of dimensions.entries()) {
    const id = newId();
    rows.spec_dimension.push({
      id,
      revision_id: revisionId,
      code: dimension.code,
      name: dimension.name,
      ordinal: index + 1,
      place_code: dimension.place,
      kind: dimension.kind,
      unit: dimension.unit,
      decimals: dimension.decimals,
      method: dimension.method,
      bore_rule: dimension.boreRule,
      readings_of: dimension.readingsOf,
      minuend: dimension.minuend,
      subtrahend: dimension.subtrahend,
      numerator: dimension.numerator,
      denominator: dimension.denominator,
      scale: dimension.scale,
      stated: dimension.stated,
      decision_rule: dimension.rule,
      inside: dimension.inside,
      nominal: dimension.nominal,
      plausible_span: dimension.plausibleSpan,
      instrument_kind: dimension.instrumentKind,
      caution: dimension.caution,
      source: dimension.source,
      page: dimension.page,
    });
    for (const [place, { code, label, level, axis, heightNm }] of dimension.positions.entries()) {
      const position = { code, label, level, axis, height_nm: heightNm };
      rows.spec_position.push({ id: newId(), dimension_id: id, ordinal: place + 1, ...position });
    }
    for (const limit of dimension.limits) {
      rows.spec_limit.push({
        id: newId(),
        dimension_id: id,
        size_class: limit.sizeClass,
        standard_low: limit.standardLow,
        standard_high: limit.standardHigh,
        service_low: limit.serviceLow,
        service_high: limit.serviceHigh,
      });
    }
  }
  return rows;
}

function fastenerRows(revisionId: string, { fasteners }: CheckedSheet) {
  const rows: Record<'spec_fastener_set' | 'spec_fastener' | 'spec_fastener_stage', Row[]> = {
    spec_fastener_set: [],
    spec_fastener: [],
    spec_fastener_stage: [],
  };
  for (const { positions, stages, ...set } of fasteners) {
    const id = newId();
    rows.spec_fastener_set.push({
      id,
      revision_id: revisionId,
      code: set.code,
      name: set.name,
      thread: set.thread,
      property_class: set.propertyClass,
      condition: set.condition,
      tool: set.tool,
      reuse: set.reuse,
      order_is_makers: set.orderIsMakers,
      unit: set.unit,
      source: set.source,
      page: set.page,
    });
    for (const [index, { xNm, yNm }] of positions.entries())
      rows.spec_fastener.push({ id: newId(), set_id: id, number: index + 1, x_nm: xNm, y_nm: yNm });
    for (const [index, { torqueUnm, angleUdeg }] of stages.entries()) {
      const stage = { torque_unm: torqueUnm, angle_udeg: angleUdeg };
      rows.spec_fastener_stage.push({ id: newId(), set_id: id, ordinal: index + 1, ...stage });
    }
  }
  return rows;
}

/** Writes a checked sheet as the rows that jobs are judged by; the draft holds none. */
export async function insertSheetRows(
  sql: Sql,
  revisionId: string,
  { sheet, document }: { readonly sheet: CheckedSheet; readonly document: SheetDocument },
): Promise<void> {
  const own = () => ({ id: newId(), revision_id: revisionId });
  const places = sheet.places.map(({ code, name, layer, material, plated, alphaPpb, alphaUPpb }, index) => {
    const facts = { code, name, layer, material, plated, alpha_ppb: alphaPpb, alpha_u_ppb: alphaUPpb };
    return { ...own(), ordinal: index + 1, ...facts };
  });
  const valves = sheet.valves.map((valve, index) => ({
    ...own(),
    ordinal: index + 1,
    code: valve.code,
    name: valve.name,
    side: valve.side,
    dimension_code: valve.dimension,
    wanted_nm: valve.wantedNm,
    adjuster: valve.adjuster,
    shim_diameter_nm: valve.shimDiameterNm,
    shim_low_nm: valve.shimLowNm,
    shim_high_nm: valve.shimHighNm,
    screw_pitch_nm: valve.screwPitchNm,
  }));
  const rows: Readonly<Record<string, readonly Row[]>> = {
    spec_place: places,
    ...dimensionRows(revisionId, sheet),
    ...fastenerRows(revisionId, sheet),
    spec_ring: sheet.rings.map(({ code, name, angleUdeg, part, pinUdeg, mark, faces }, index) => ({
      ...own(),
      ordinal: index + 1,
      code,
      name,
      angle_udeg: angleUdeg,
      part,
      pin_udeg: pinUdeg,
      mark,
      faces,
    })),
    spec_ring_zone: sheet.ringZones.map(({ fromUdeg, toUdeg, reason }) => ({
      ...own(),
      from_udeg: fromUdeg,
      to_udeg: toUdeg,
      reason,
    })),
    spec_valve: valves,
    spec_proof: document.proofs.map(({ code, name, dimension, words, caution }, index) => ({
      ...own(),
      ordinal: index + 1,
      code,
      name,
      dimension_code: dimension,
      words,
      caution,
    })),
  };
  for (const [table, of] of Object.entries(rows)) await insertAll(sql, table, of);
}

/** Keeps the draft's document and what its own row says; its version goes up by one. */
export async function updateDraft(
  sql: Sql,
  revisionId: string,
  of: { readonly sheet: CheckedSheet; readonly document: SheetDocument },
): Promise<number> {
  const { document, sheet } = of;
  const [row] = await sql<{ version: number }[]>`
    update spec_revision
    set note = ${document.note}, figures_invented = ${document.figuresInvented},
        ring_separation_udeg = ${sheet.ringSeparationUdeg}, rail_offset_udeg = ${sheet.railOffsetUdeg}, document = ${sql.json(document as never)}, version = version + 1
    where id = ${revisionId} returning version`;
  return row?.version ?? 0;
}
