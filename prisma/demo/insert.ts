import type { Sql } from '../../server/platform/database/client.ts';

/** Every table the demo fills, in an order in which each row finds what it refers to. */
const tables = [
  'shop',
  'person',
  'person_role',
  'badge',
  'bay',
  'terminal',
  'vendor',
  'owner',
  'family',
  'spec_revision',
  'spec_place',
  'spec_dimension',
  'spec_position',
  'spec_limit',
  'spec_fastener_set',
  'spec_fastener',
  'spec_fastener_stage',
  'spec_ring',
  'spec_ring_zone',
  'spec_valve',
  'spec_proof',
  'procedure',
  'procedure_version',
  'procedure_step',
  'step_piece',
  'step_caution',
  'step_reading',
  'step_put_in',
  'step_choice',
  'step_condition',
  'instrument',
  'instrument_blade',
  'instrument_check',
  'gauge_study',
  'gauge_study_person',
  'gauge_study_reading',
  'part',
  'part_companion',
  'part_alternative',
  'bin',
  'kit',
  'kit_line',
  'engine',
  'job',
  'fitted_part',
  'promise',
  'bay_assignment',
  'opening_rule',
  'shift_end',
  'tray',
  'handover',
  'handover_tray',
  'custody',
  'opening',
  'opening_cover',
  'procedure_run',
  'piece',
  'handover_line',
  'handover_count',
  'piece_position',
  'run_answer',
  'step_mark',
  'run_interruption',
  'run_resumption',
  'outside_work',
  'reading',
  'reading_strike',
  'finding',
  'finding_reading',
  'piece_movement',
  'position_fill',
  'obligation',
  'disposition',
  'obligation_act',
  'put_in',
  'put_in_act',
  'inside_search',
  'search_tick',
  'position_move',
  'closing_check',
  'opening_look',
  'stock_lot',
  'demand_line',
  'demand_reason',
  'reservation',
  'stock_movement',
  'count_sheet',
  'count_sheet_bin',
  'count_round',
  'count_line',
  'count_entry',
  'count_commit',
  'vendor_price',
  'purchase_order',
  'purchase_order_mark',
  'purchase_line',
  'purchase_fact',
  'purchase_promise',
  'core_owed',
  'quote',
  'quote_line',
  'quote_answer',
  'shim_choice',
  'ring_placement',
  'torque_pull',
  'proof',
  'sign_off',
  'photo',
  'file_part',
  'photo_note',
  'event',
] as const;

export type TableName = (typeof tables)[number];

export type Cell = string | number | boolean | null | readonly unknown[] | Readonly<Record<string, unknown>>;
/** A row to be inserted. Until then it may still get its end: a custody period, a job handed back. */
export type Row = Record<string, Cell>;

export interface Rows {
  readonly add: <R extends Row>(table: TableName, row: R) => R;
  readonly of: (table: TableName) => readonly Row[];
}

export function emptyRows(): Rows {
  const byTable = new Map<TableName, Row[]>(tables.map((table) => [table, []]));
  const of = (table: TableName): Row[] => byTable.get(table) ?? [];
  return {
    of,
    add: (table, row) => {
      of(table).push(row);
      return row;
    },
  };
}

/**
 * Ended custody periods before present ones, so that a bay is counted full by those who stand in it now alone; movements
 * of stock as they happened, since each is worth what the average was then.
 */
function inOrder(table: TableName, rows: readonly Row[]): readonly Row[] {
  if (table === 'stock_movement')
    return rows.toSorted((a, b) => (String(a.moved_at) < String(b.moved_at) ? -1 : a.moved_at === b.moved_at ? 0 : 1));
  if (table !== 'custody') return rows;
  return [...rows.filter((row) => row.until_at !== null), ...rows.filter((row) => row.until_at === null)];
}

async function insertTable(sql: Sql, table: TableName, rows: readonly Row[]): Promise<void> {
  const [first] = rows;
  if (first === undefined) return;
  const columns = Object.keys(first);
  const odd = rows.find((row) => Object.keys(row).length !== columns.length);
  if (odd !== undefined) throw new Error(`Rows of ${table} differ in their columns: ${Object.keys(odd).join(', ')}`);
  const list = columns.map((column) => `"${column}"`).join(', ');
  // Names come from this program; every value travels in the one JSON parameter.
  await sql.unsafe(
    `insert into ${table} (${list}) select ${list} from json_populate_recordset(null::${table}, $1::text::json)`,
    [JSON.stringify(inOrder(table, rows))],
  );
}

export interface Publishing {
  readonly sheets: () => Promise<void>;
  readonly procedures: () => Promise<void>;
}

/** Inserts everything with all triggers on; sheets and procedures are published once they are whole. */
export async function insertAll(sql: Sql, rows: Rows, publish: Publishing): Promise<void> {
  for (const table of tables) {
    await insertTable(sql, table, rows.of(table));
    if (table === 'spec_proof') await publish.sheets();
    if (table === 'step_condition') await publish.procedures();
  }
}
