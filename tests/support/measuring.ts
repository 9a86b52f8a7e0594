import { newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';

const um = (micrometres: number): number => micrometres * 1000;

/** A measuring bench's instruments, checked today: all figures invented. */
export async function insertInstruments(sql: SqlPool, checkedById: string): Promise<Readonly<Record<string, string>>> {
  const instruments = [
    { code: 'BG-2', name: 'Bore gauge', kind: 'dial bore gauge', low: um(35_000), high: um(160_000), mpe: 1 },
    { code: 'MI-3', name: 'Micrometer', kind: 'micrometer', low: um(75_000), high: um(100_000), mpe: 2 },
    { code: 'FE-1', name: 'Feelers', kind: 'feeler set', low: um(10), high: um(2_000), mpe: 2 },
  ];
  const ids: Record<string, string> = {};
  for (const { code, name, kind, low, high, mpe } of instruments) {
    const id = newId();
    ids[code] = id;
    await sql`
      insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe,
                              repeatability, calibration_due_on)
      values (${id}, ${code}, ${name}, ${kind}, 'length', 'mm', 3, ${low}, ${high}, 1000, ${um(mpe)}, 800, '2099-01-01')`;
    await sql`
      insert into instrument_check (id, instrument_id, zero_error, master, checked_by_id)
      values (${newId()}, ${id}, 0, 'setting ring', ${checkedById})`;
  }
  for (const blade of [50, 100, 150, 200, 250, 300, 350, 400, 450, 500, 550, 600, 650]) {
    await sql`
      insert into instrument_blade (id, instrument_id, thickness_nm, tolerance_nm)
      values (${newId()}, ${ids['FE-1'] ?? ''}, ${um(blade)}, 2000)`;
  }
  return ids;
}

/** Where the bore is measured, top to bottom, across and along the pin. */
export const borePositions = ['A-across', 'A-along', 'B-across', 'B-along', 'C-across', 'C-along'] as const;

/** Six readings of the bore in the order of borePositions. */
export const boreOf = (texts: readonly string[], more: object = {}) =>
  borePositions.map((position, index) => ({
    position,
    repeat: 1,
    text: texts[index] ?? '',
    unit: 'mm',
    instrumentCode: 'BG-2',
    ...more,
  }));

export const pistonOf = (text: string, more: object = {}) => [
  { position: '1', repeat: 1, text, unit: 'mm', instrumentCode: 'MI-3', ...more },
];
