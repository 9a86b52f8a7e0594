import type { KeyCount, KeyFound, OpenCount } from '#contracts/counts.ts';
import { lineStanding } from '#domain/stock/counting.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findBinsToCount,
  findLineOfLot,
  findLineToKey,
  findLotLike,
  findPartToCount,
  findSerial,
  insertEntry,
  insertLine,
  insertRound,
  insertSheet,
  type LineToKey,
  lockSheet,
  type SheetHead,
  type SheetLock,
} from './queries.ts';
import { giveUp } from './settling-queries.ts';

/** Begins a sheet for bins that nobody counts now; whoever begins it counts the first round. */
export async function openCount(act: Act, { binIds }: OpenCount): Promise<{ id: string }> {
  const wanted = [...new Set(binIds)];
  const bins = await findBinsToCount(act.sql, wanted);
  const faults = wanted.flatMap((id, at) => {
    const bin = bins.find((one) => one.id === id);
    const detail =
      bin === undefined
        ? 'is no bin'
        : bin.closed
          ? `${bin.code} is closed`
          : bin.sheet === null
            ? undefined
            : `${bin.code} is being counted by ${bin.counter} on sheet ${bin.sheet}`;
    return detail === undefined ? [] : [{ pointer: `/binIds/${at}`, detail }];
  });
  if (faults[0] !== undefined) {
    const taken = bins.some(({ sheet }) => sheet !== null);
    const code = bins.length < wanted.length ? 'not-found' : taken ? 'conflict' : 'refused';
    throw new ProblemError(code, `These bins cannot be counted: ${faults.map(({ detail }) => detail).join('; ')}.`, {
      errors: faults,
    });
  }
  const sheet = await insertSheet(act.sql, { binIds: wanted, byId: act.actor.id });
  await act.event('count.begun', {
    data: { sheet: sheet.number, bins: bins.map(({ code }) => code), lines: sheet.lines },
  });
  return sheet;
}

/** A sheet that still goes on, held for the rest of the act. */
export async function sheetOf(act: Act, id: string, lock: SheetLock): Promise<SheetHead> {
  const sheet = found(await lockSheet(act.sql, id, lock), 'such count sheet');
  if (sheet.givenUp) throw new ProblemError('already-done', `Sheet ${sheet.number} was given up. Begin another.`);
  if (sheet.ended) throw new ProblemError('already-done', `Sheet ${sheet.number} is settled and takes nothing more.`);
  return sheet;
}

/** A sheet in a round that whoever asks is counting. */
export async function sheetToCount(act: Act, id: string, lock: SheetLock): Promise<SheetHead> {
  const sheet = await sheetOf(act, id, lock);
  if (sheet.handedIn) {
    throw new ProblemError(
      'already-done',
      `Round ${sheet.round} of sheet ${sheet.number} was handed in. Begin a recount to count what was off.`,
    );
  }
  if (sheet.counterId !== act.actor.id) {
    throw new ProblemError('conflict', `${sheet.counter} counts sheet ${sheet.number}. Begin a sheet of your own.`);
  }
  return sheet;
}

/** A count of one line. Keyed again before it is handed in, the later one holds. */
export async function keyCount(act: Act, asked: KeyCount & { readonly sheetId: string }): Promise<void> {
  const sheet = await sheetToCount(act, asked.sheetId, 'to key');
  const line = await findLineToKey(act.sql, asked.lineId);
  if (line === undefined || line.sheetId !== sheet.id) {
    throw new ProblemError('not-found', `Sheet ${sheet.number} has no such line.`, {
      errors: [{ pointer: '/lineId', detail: 'is not a line of this sheet' }],
    });
  }
  refuseOutOfRound(line, sheet);
  refuseManyOfOne(line.serial, asked.counted, '/counted');
  await keep(act, { sheet, line, counted: asked.counted });
}

function refuseOutOfRound(line: LineToKey, sheet: SheetHead): void {
  const standing = lineStanding(line);
  if (!line.binEnded && (sheet.round === 1 || standing === 'to count' || standing === 'to count again')) return;
  throw new ProblemError(
    'already-done',
    `${line.name} in bin ${line.bin} is ${standing === 'settled' ? 'settled' : 'not counted again in this round'}.`,
    { errors: [{ pointer: '/lineId', detail: 'is not to be counted now' }] },
  );
}

function refuseManyOfOne(serial: string | null | undefined, counted: number, pointer: string): void {
  if (serial === null || serial === undefined || counted <= 1) return;
  throw new ProblemError('refused', `The piece with serial ${serial} is seen or not: count 1 or 0.`, {
    errors: [{ pointer, detail: 'must be 0 or 1' }],
  });
}

/** The event tells that a line was counted, never what. */
async function keep(
  act: Act,
  of: { sheet: SheetHead; line: { id: string; lotId: string | null; bin: string; name: string }; counted: number },
): Promise<void> {
  const { sheet, line, counted } = of;
  const at = act.happenedAt ?? null;
  await insertEntry(act.sql, { line, round: sheet.round, counted, byId: act.actor.id, at });
  await act.event('count.keyed', { data: { sheet: sheet.number, bin: line.bin, name: line.name } });
}

/** Pieces that lie in a bin of the sheet and are not on it. */
export async function keyFound(act: Act, asked: KeyFound & { readonly sheetId: string }): Promise<void> {
  const sheet = await sheetToCount(act, asked.sheetId, 'to end');
  const bin = (await findBinsToCount(act.sql, [asked.binId])).find((one) => one.sheet === sheet.number);
  if (bin === undefined) {
    throw new ProblemError('refused', `Sheet ${sheet.number} is not about that bin, or is done with it.`, {
      errors: [{ pointer: '/binId', detail: 'is not a bin that this sheet counts' }],
    });
  }
  const part = await findPartToCount(act.sql, asked.partId);
  if (part === undefined) {
    throw new ProblemError('not-found', 'There is no such part. Add it to the parts first.', {
      errors: [{ pointer: '/partId', detail: 'is no part' }],
    });
  }
  const serial = asked.serial?.trim() ?? null;
  if (part.bySerial && serial === null) {
    throw new ProblemError('refused', `${part.name} is kept by serial: give the serial, a line a piece.`, {
      errors: [{ pointer: '/serial', detail: 'must be given' }],
    });
  }
  refuseManyOfOne(serial, asked.counted, '/counted');
  if (serial !== null) await refuseSerialElsewhere(act, { partId: part.id, serial, binId: bin.id });
  const of = { binId: bin.id, partId: part.id, code: asked.lotCode?.trim() ?? '', serial };
  const lotId = (await findLotLike(act.sql, of)) ?? null;
  if (lotId !== null && (await findLineOfLot(act.sql, sheet.id, lotId)) !== undefined) {
    throw new ProblemError('conflict', `${part.name} has a line of that lot on this sheet. Count it there.`, {
      errors: [{ pointer: '/lotCode', detail: 'is on the sheet already' }],
    });
  }
  const id = await insertLine(act.sql, { sheetId: sheet.id, ...of, lotId, found: true });
  await keep(act, { sheet, line: { id, lotId, bin: bin.code, name: part.name }, counted: asked.counted });
}

async function refuseSerialElsewhere(act: Act, of: { partId: string; serial: string; binId: string }): Promise<void> {
  const { lies, out } = await findSerial(act.sql, of.partId, of.serial);
  const refuse = (detail: string, errorDetail: string): never => {
    throw new ProblemError('conflict', `By the books serial ${of.serial} ${detail}`, {
      errors: [{ pointer: '/serial', detail: errorDetail }],
    });
  };
  if (out !== undefined)
    refuse(`is out with job ${out.job}. Take it back from there instead of adding it.`, `is out with job ${out.job}`);
  if (lies !== undefined && lies.binId !== of.binId)
    refuse(
      `lies in bin ${lies.bin}. If this is that piece, transfer it here instead of adding it.`,
      `lies in bin ${lies.bin}`,
    );
}

/** Somebody takes what was off for another blind round; another person than before is better, and not demanded. */
export async function beginRecount(act: Act, sheetId: string, linesToCount: number): Promise<void> {
  const sheet = await sheetOf(act, sheetId, 'to end');
  if (!sheet.handedIn) {
    throw new ProblemError('already-done', `${sheet.counter} is counting round ${sheet.round} of this sheet.`);
  }
  if (linesToCount === 0) throw new ProblemError('refused', 'No line of this sheet is to be counted again.');
  await insertRound(act.sql, { sheetId, round: sheet.round + 1, counterId: act.actor.id });
  await act.event('count.recount-begun', {
    data: { sheet: sheet.number, round: sheet.round + 1, sameCounter: sheet.counterId === act.actor.id },
  });
}

/** Ends a sheet without settling what is open on it; what was settled stays so. */
export async function giveUpCount(act: Act, sheetId: string, reason: string): Promise<void> {
  const sheet = await sheetOf(act, sheetId, 'to end');
  await giveUp(act.sql, { sheetId, reason: reason.trim(), byId: act.actor.id });
  await act.event('count.given-up', { data: { sheet: sheet.number, reason: reason.trim() } });
}
