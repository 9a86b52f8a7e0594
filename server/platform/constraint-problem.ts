import { ProblemError } from './problem.ts';

/** What postgres.js and Prisma's adapter tell of a refusal by the database. */
interface DatabaseRefusal {
  readonly code: string;
  readonly constraint: string;
  readonly table: string;
  readonly message: string;
}

type Words = readonly [code: ConstructorParameters<typeof ProblemError>[0], detail: string];

/** By name, where the database's rule deserves words of its own. */
const byConstraint: Readonly<Record<string, Words>> = {
  custody_one_holder_engine: ['conflict', 'Somebody else holds this engine now. Read it again and see who.'],
  custody_one_holder_tray: ['conflict', 'Somebody else holds this tray now. Read it again and see who.'],
  custody_engine_now: ['conflict', 'Somebody else holds this engine now. Read it again and see who.'],
  custody_tray_now: ['conflict', 'Somebody else holds this tray now. Read it again and see who.'],
  opening_one_at_a_time: ['already-done', 'This engine is open already. Go on with that opening.'],
  job_one_visit_at_a_time: ['conflict', 'This engine is in the shop already: it has a job that was not handed back.'],
  handover_one_offer: [
    'conflict',
    'This engine is being handed over already. Wait for the answer or withdraw the offer.',
  ],
  handover_tray_one_offer: ['conflict', 'One of these trays is being handed over already.'],
  piece_in_tray_not_below_zero: ['refused', 'There are not that many of these pieces in that tray. Count again.'],
  piece_with_engine_not_below_zero: [
    'refused',
    'There are not that many of these pieces beside the engine. Count again.',
  ],
  piece_inside_at_most_missing: ['refused', 'More would be possibly inside than are missing. Read the tally again.'],
  put_in_out_at_most_in: ['refused', 'More would come out than were put in. Count again.'],
  position_move_has_a_reason: ['refused', 'A piece goes back where it came from, or somebody says why not.'],
  piece_back_at_most_off: ['refused', 'More pieces would go back than came off. Count again.'],
  stock_lot_available_not_negative: ['stock-short', 'There is not that much available: some of it is reserved.'],
  stock_lot_on_hand_not_negative: ['stock-short', 'There is not that much in the bin.'],
  purchase_order_mark_once: ['already-done', 'That was noted on this order already.'],
  core_mark_once: ['already-done', 'That was noted for this core already.'],
  count_sheet_bin_one_open: ['conflict', 'One of these bins is being counted on another sheet. Read the list again.'],
  count_commit_once: ['already-done', 'This round was handed in already.'],
  count_round_pkey: ['already-done', 'Somebody has begun this recount already.'],
  count_settlement_pkey: ['already-done', 'This line is settled already.'],
  count_again_pkey: ['already-done', 'Another count of this line was asked for already.'],
  count_line_lot_once: ['conflict', 'That lot has a line on this sheet. Count it there.'],
  count_line_found_once: ['conflict', 'That was added to this sheet already. Count it on its line.'],
  stock_lot_one_of_serial: ['conflict', 'A piece with that serial lies in stock already.'],
  engine_serial_key: ['conflict', 'An engine with this serial is known already.'],
  family_code_key: ['conflict', 'A family with this code is known already.'],
  family_name_key: ['conflict', 'A family with this name is known already.'],
  spec_revision_one_draft: ['already-done', 'This family has a draft already. Go on with it, or discard it first.'],
  person_initials_key: [
    'conflict',
    'Somebody has these initials already. Take others: they stand beside each reading.',
  ],
  bay_name_key: ['conflict', 'A bay has this name already.'],
  terminal_name_key: ['conflict', 'A terminal has this name already.'],
  vendor_name_key: ['conflict', 'A vendor has this name already.'],
  photo_removal_pkey: ['already-done', 'This photo was removed already.'],
  part_number_key: ['conflict', 'A part with this number is known already.'],
  part_number_small: ['conflict', 'A part with this number, in small or large letters, is known already.'],
  bin_code_small: ['conflict', 'A bin has this code already, in small or large letters.'],
  kit_name_small: ['conflict', 'A kit of this family has this name already, in small or large letters.'],
};

/** By the codes our own triggers raise; their messages are written for people. */
const byCode: Readonly<Record<string, ConstructorParameters<typeof ProblemError>[0]>> = {
  CH001: 'refused',
  CH002: 'refused',
  CH003: 'refused',
  CH004: 'refused',
  CH005: 'bay-full',
  CH006: 'already-done',
  CH007: 'refused',
  CH008: 'not-allowed',
  CH009: 'refused',
  CH019: 'conflict',
  CH020: 'refused',
};

const bySqlState: Readonly<Record<string, Words>> = {
  '23505': ['conflict', 'That is there already.'],
  '23P01': ['conflict', 'That overlaps something that is there already.'],
  '23503': ['not-found', 'Something this refers to is not there.'],
  '23514': ['refused', 'A value is outside what is allowed.'],
  '22P02': ['invalid-request', 'A value is not of the expected form.'],
  '22003': ['invalid-request', 'A number is too large.'],
  '22007': ['invalid-request', 'A date or time is none.'],
  '22008': ['invalid-request', 'A date or time is out of range.'],
  '22021': ['invalid-request', 'A text holds a character that cannot be kept.'],
  '22P05': ['invalid-request', 'A text holds a character that cannot be kept.'],
};

function refusalIn(error: unknown): DatabaseRefusal | undefined {
  if (typeof error !== 'object' || error === null) return undefined;
  const e = error as Record<string, unknown>;
  if (typeof e.code !== 'string' || !/^[0-9A-Z]{5}$/.test(e.code)) return undefined;
  return {
    code: e.code,
    constraint: String(e.constraint_name ?? e.constraint ?? ''),
    table: String(e.table_name ?? e.table ?? ''),
    message: String(e.message ?? ''),
  };
}

/** The problem that a database's refusal means, or undefined if it was no refusal of ours. */
export function constraintProblem(error: unknown): ProblemError | undefined {
  const refusal = refusalIn(error);
  if (refusal === undefined) return undefined;
  const ours = byCode[refusal.code];
  if (ours !== undefined) return new ProblemError(ours, `${sentence(refusal.message)}`);
  const named = byConstraint[refusal.constraint] ?? bySqlState[refusal.code];
  if (named === undefined) return undefined;
  return new ProblemError(named[0], named[1], refusal.constraint === '' ? {} : { rule: refusal.constraint });
}

/** True for a deadlock or serialization failure: the same transaction may be tried again. */
export function isRetryable(error: unknown): boolean {
  const code = refusalIn(error)?.code;
  return code === '40001' || code === '40P01' || code === 'CH020';
}

const sentence = (message: string): string => `${message.charAt(0).toUpperCase()}${message.slice(1)}.`;
