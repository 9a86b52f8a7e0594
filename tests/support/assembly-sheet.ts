import { newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';

const mm = 1_000_000;

/** The invented Halden 388, as far as assembly goes: one valve with shims (and more of its kind), three rings, four head bolts in two stages, two rod bolts turned past yield and four sprocket bolts to be inspected. */
export async function insertAssemblySheet(
  sql: SqlPool,
  publishedById: string,
  moreValves: readonly { readonly code: string; readonly name: string; readonly pitch?: number }[] = [],
): Promise<{ familyId: string; revisionId: string }> {
  const [familyId, revisionId, dimensionId, setId] = [newId(), newId(), newId(), newId()];
  await sql`
    insert into family (id, code, name, cycle, cooling, bore_nm, stroke_nm)
    values (${familyId}, 'H388', 'Halden 388', 'four-stroke', 'water', ${92 * mm}, ${58.5 * mm})`;
  await sql`
    insert into spec_revision (id, family_id, number, figures_invented, ring_separation_udeg)
    values (${revisionId}, ${familyId}, 1, true, 60000000)`;
  await sql`
    insert into spec_place (id, revision_id, code, name, ordinal) values (${newId()}, ${revisionId}, 'valve IN-L', 'Intake valve, left', 1)`;
  await sql`
    insert into spec_dimension (id, revision_id, code, name, ordinal, place_code, kind, unit, decimals, method)
    values (${dimensionId}, ${revisionId}, 'lash-in-l', 'Lash, intake left', 1, 'valve IN-L', 'length', 'mm', 2, 'interval')`;
  await sql`
    insert into spec_position (id, dimension_id, code, label, ordinal) values (${newId()}, ${dimensionId}, '1', 'at top dead centre', 1)`;
  await sql`
    insert into spec_limit (id, dimension_id, standard_low, standard_high) values (${newId()}, ${dimensionId}, ${0.1 * mm}, ${0.15 * mm})`;
  await sql`
    insert into spec_valve (id, revision_id, code, name, side, ordinal, dimension_code, wanted_nm, adjuster, shim_diameter_nm, shim_low_nm, shim_high_nm)
    values (${newId()}, ${revisionId}, 'IN-L', 'intake left', 'intake', 1, 'lash-in-l', ${0.13 * mm}, 'shim under bucket', ${7.48 * mm}, ${1.2 * mm}, ${3.5 * mm})`;
  for (const [index, { code, name, pitch }] of moreValves.entries()) {
    const [lash, ordinal] = [`lash-${code.toLowerCase()}`, index + 2];
    const id = newId();
    await sql`
      insert into spec_dimension (id, revision_id, code, name, ordinal, place_code, kind, unit, decimals, method)
      values (${id}, ${revisionId}, ${lash}, ${`Lash, ${name}`}, ${ordinal}, 'valve IN-L', 'length', 'mm', 2, 'interval')`;
    await sql`insert into spec_position (id, dimension_id, code, label, ordinal) values (${newId()}, ${id}, '1', 'at top dead centre', 1)`;
    await sql`insert into spec_limit (id, dimension_id, standard_low, standard_high) values (${newId()}, ${id}, ${0.1 * mm}, ${0.15 * mm})`;
    await sql`
      insert into spec_valve (id, revision_id, code, name, side, ordinal, dimension_code, wanted_nm, adjuster, shim_diameter_nm, shim_low_nm, shim_high_nm, screw_pitch_nm)
      values (${newId()}, ${revisionId}, ${code}, ${name}, 'exhaust', ${ordinal}, ${lash}, ${0.13 * mm},
              ${pitch === undefined ? 'shim on bucket' : 'screw'}, ${pitch === undefined ? 7.48 * mm : null},
              ${pitch === undefined ? 1.2 * mm : null}, ${pitch === undefined ? 3.5 * mm : null}, ${pitch === undefined ? null : pitch * mm})`;
  }
  for (const [index, [code, name, angle, part, mark]] of (
    [
      ['1', 'top ring', 20, 'compression', 'R'],
      ['2', 'second ring', 200, 'compression', ''],
      ['S', 'spacer', 120, 'spacer', ''],
    ] as const
  ).entries()) {
    await sql`
      insert into spec_ring (id, revision_id, code, name, ordinal, angle_udeg, part, mark, faces)
      values (${newId()}, ${revisionId}, ${code}, ${name}, ${index + 1}, ${angle * mm}, ${part}, ${mark},
              ${part === 'spacer' ? 'either' : 'crown'})`;
  }
  await sql`
    insert into spec_ring_zone (id, revision_id, from_udeg, to_udeg, reason) values (${newId()}, ${revisionId}, ${80 * mm}, ${100 * mm}, 'the pin')`;
  await sql`
    insert into spec_fastener_set (id, revision_id, code, name, thread, property_class, condition, reuse)
    values (${setId}, ${revisionId}, 'head', 'head bolts', 'M10x1.25', '10.9', 'oiled', 'reuse')`;
  for (const [index, [x, y]] of (
    [
      [30, 30],
      [-30, -30],
      [-30, 30],
      [30, -30],
    ] as const
  ).entries()) {
    await sql`insert into spec_fastener (id, set_id, number, x_nm, y_nm) values (${newId()}, ${setId}, ${index + 1}, ${x * mm}, ${y * mm})`;
  }
  await sql`insert into spec_fastener_stage (id, set_id, ordinal, torque_unm) values (${newId()}, ${setId}, 1, ${20 * mm})`;
  await sql`insert into spec_fastener_stage (id, set_id, ordinal, angle_udeg) values (${newId()}, ${setId}, 2, ${90 * mm})`;
  await insertSmallSets(sql, revisionId);
  await sql`
    insert into spec_proof (id, revision_id, code, name, ordinal, words, caution)
    values (${newId()}, ${revisionId}, 'leak-down', 'Leak-down', 1, 'At most 15 % at top dead centre', 'Hold the crank: it kicks')`;
  await sql`update spec_revision set published_at = clock_timestamp(), published_by_id = ${publishedById} where id = ${revisionId}`;
  return { familyId, revisionId };
}

/** Rod bolts are used once, their last stage an angle; sprocket bolts are looked at, their order left to be worked out. */
async function insertSmallSets(sql: SqlPool, revisionId: string): Promise<void> {
  const sets = [
    {
      code: 'rod',
      name: 'rod bolts',
      thread: 'M8x1',
      grade: '10.9',
      condition: 'oiled',
      reuse: 'one-time',
      makers: true,
    },
    {
      code: 'sprocket',
      name: 'sprocket bolts',
      thread: 'M6',
      grade: '8.8',
      condition: 'locking compound',
      reuse: 'inspect',
      makers: false,
    },
  ];
  const places: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
    rod: [
      [-20, 0],
      [20, 0],
    ],
    sprocket: [
      [0, 24],
      [24, 0],
      [0, -24],
      [-24, 0],
    ],
  };
  for (const { code, name, thread, grade, condition, reuse, makers } of sets) {
    const setId = newId();
    await sql`
      insert into spec_fastener_set (id, revision_id, code, name, thread, property_class, condition, reuse, order_is_makers)
      values (${setId}, ${revisionId}, ${code}, ${name}, ${thread}, ${grade}, ${condition}, ${reuse}, ${makers})`;
    for (const [index, [x, y]] of (places[code] ?? []).entries()) {
      await sql`insert into spec_fastener (id, set_id, number, x_nm, y_nm) values (${newId()}, ${setId}, ${index + 1}, ${x * mm}, ${y * mm})`;
    }
    await sql`insert into spec_fastener_stage (id, set_id, ordinal, torque_unm) values (${newId()}, ${setId}, 1, ${12 * mm})`;
    if (code === 'rod') {
      await sql`insert into spec_fastener_stage (id, set_id, ordinal, angle_udeg) values (${newId()}, ${setId}, 2, ${90 * mm})`;
    }
  }
}

/** Two torque wrenches, 5 to 25 and 20 to 100 N·m, and one whose calibration ran out. */
export async function insertWrenches(sql: SqlPool): Promise<void> {
  for (const { code, largest, due } of [
    { code: 'TW-1', largest: 25, due: '2099-01-01' },
    { code: 'TW-2', largest: 100, due: '2099-01-01' },
    { code: 'TW-3', largest: 60, due: '2020-01-31' },
  ]) {
    await sql`
      insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe, calibrated_on, calibration_due_on)
      values (${newId()}, ${code}, 'Torque wrench', 'torque wrench', 'torque', 'N.m', 1, ${(largest / 5) * mm}, ${largest * mm}, 100000, 400000,
              '2020-01-01', ${due})`;
  }
}

/** Shims of 7.48 mm in 0.05 steps in one bin, so many of each. */
export async function insertShims(
  sql: SqlPool,
  of: { thicknesses: readonly number[]; count: number; movedById: string; bin?: string },
): Promise<void> {
  const binId = newId();
  await sql`insert into bin (id, code, walk_order) values (${binId}, ${of.bin ?? 'S-14'}, 14)`;
  for (const thickness of of.thicknesses) {
    const [partId, lotId] = [newId(), newId()];
    await sql`
      insert into part (id, number, name, shim_nm, shim_diameter_nm)
      values (${partId}, ${`SH-748-${thickness.toFixed(2)}`}, ${`Shim ${thickness.toFixed(2)}`}, ${Math.round(thickness * mm)}, ${7.48 * mm})`;
    await sql`insert into stock_lot (id, part_id, bin_id) values (${lotId}, ${partId}, ${binId})`;
    await sql`
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, moved_by_id)
      values (${newId()}, ${lotId}, 'receive', ${of.count}, 0, ${of.movedById})`;
  }
}
