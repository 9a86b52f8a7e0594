import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface NewInstrument {
  readonly code: string;
  readonly name: string;
  readonly instrumentKind: string;
  readonly kind: string;
  readonly unit: string;
  readonly decimals: number;
  readonly low: number;
  readonly high: number;
  readonly resolution: number;
  readonly mpe: number;
  readonly localU: number | null;
}

export async function insertInstrument(sql: Sql, of: NewInstrument): Promise<string> {
  const id = newId();
  await sql`
    insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe, local_u)
    values (${id}, ${of.code}, ${of.name}, ${of.instrumentKind}, ${of.kind}, ${of.unit}, ${of.decimals}, ${of.low},
            ${of.high}, ${of.resolution}, ${of.mpe}, ${of.localU})`;
  return id;
}

export async function insertBlade(
  sql: Sql,
  blade: { instrumentId: string; thickness: number; tolerance: number },
): Promise<void> {
  await sql`
    insert into instrument_blade (id, instrument_id, thickness_nm, tolerance_nm)
    values (${newId()}, ${blade.instrumentId}, ${blade.thickness}, ${blade.tolerance})`;
}

export interface NewCalibration {
  readonly instrumentId: string;
  readonly calibratedOn: string;
  readonly dueOn: string;
  readonly certificate: string;
  readonly mpe: number;
  readonly recordedById: string;
}

export async function insertCalibration(sql: Sql, of: NewCalibration): Promise<string> {
  const id = newId();
  await sql`
    insert into instrument_calibration (id, instrument_id, calibrated_on, due_on, mpe, certificate, recorded_by_id)
    values (${id}, ${of.instrumentId}, ${of.calibratedOn}, ${of.dueOn}, ${of.mpe}, ${of.certificate}, ${of.recordedById})`;
  return id;
}

export async function updateRetired(sql: Sql, id: string): Promise<void> {
  await sql`update instrument set retired_at = clock_timestamp() where id = ${id}`;
}
