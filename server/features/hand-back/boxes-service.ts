import type { HandBackInBoxes, PackingList } from '#contracts/boxes.ts';
import { may } from '#contracts/rights.ts';
import { blindTrays, wordsShownTo } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import { leaveInBoxes, lyingPieces, missingPieces, refuseStillIn } from '#features/openings/service.ts';
import { shopHead } from '#features/shop/head/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findBoxed, findBoxedLines, findBoxedObligations, findDepth, insertBoxed } from './boxes-queries.ts';
import { findJob, findNewestQuote, findObligations, findOpenings, insertOverride } from './queries.ts';
import { sendHome } from './send-home.ts';
import { reasonsAgainst } from './service.ts';
import { findHead } from './sheet-queries.ts';

type Lines = Awaited<ReturnType<typeof lyingPieces>>;

/** What is elsewhere, or on its way to somebody, can't be packed. */
const firm: ReadonlySet<string> = new Set(['at-vendor', 'handover-offered']);

/** What the packing list itself answers. */
const packed: ReadonlySet<string> = new Set(['tray-not-back', 'not-proved', 'quote-without-yes', 'demand-open']);

interface Viewed {
  readonly jobId: string;
  readonly viewerId: string;
}

/** The packing list of a job: as it would be now, or as it was when the engine went home in boxes. */
export async function packingList(sql: Sql, { jobId, viewerId }: Viewed): Promise<PackingList> {
  const head = found(await findHead(sql, jobId), 'such job');
  const { engineId } = found(await findJob(sql, jobId), 'such job');
  const boxed = await findBoxed(sql, jobId);
  const blind = await blindTrays(sql, { jobId, viewerId });
  const lines = boxed === undefined ? await lyingPieces(sql, jobId) : await findBoxedLines(sql, jobId);
  const reasons = head.handedBackAt === null ? await reasonsAgainst(sql, { jobId, engineId, viewerId }) : [];
  return {
    jobId,
    engineId,
    jobNumber: head.number,
    shop: await shopHead(sql),
    engine: { serial: head.serial, family: head.family, cycle: head.cycle, cooling: head.cooling },
    owner: head.owner,
    depth: await findDepth(sql, jobId),
    saidNo: (await findNewestQuote(sql, jobId))?.answer === 'no',
    reasons: reasons.filter(({ kind }) => firm.has(kind)),
    boxes: boxesOf(lines, blind),
    missing: [...(await missingPieces(sql, jobId))],
    obligations:
      boxed === undefined
        ? (await obligationsOpen(sql, { jobId, engineId, viewerId })).map(({ words }) => words)
        : [...(await findBoxedObligations(sql, jobId))],
    given:
      boxed === undefined
        ? null
        : {
            cause: boxed.cause,
            reason: boxed.reason,
            note: boxed.note,
            by: { id: boxed.byId, name: boxed.by },
            at: boxed.at,
          },
  };
}

function boxesOf(lines: Lines, blind: ReadonlySet<string>): PackingList['boxes'] {
  const trays = new Map(lines.map(({ trayId, label }) => [trayId, label]));
  return [...trays].map(([trayId, label]) => ({
    tray: trayId === null ? null : { id: trayId, name: label ?? '' },
    lines: lines
      .filter((line) => line.trayId === trayId)
      .map(({ pieceId, name, count }) => ({
        pieceId,
        name,
        count: trayId !== null && blind.has(trayId) ? null : count,
      })),
  }));
}

async function obligationsOpen(sql: Sql, { jobId, viewerId, engineId }: Viewed & { readonly engineId: string }) {
  const shown = await wordsShownTo(sql, { jobId, viewerId });
  return (await findObligations(sql, engineId)).map(({ id, what }) => ({ id, words: shown(id, what) }));
}

/** Hands an open engine back in boxes: a lead, because the owner declined, with every tray counted and listed. */
export async function handBackInBoxes(
  act: Act,
  jobId: string,
  asked: HandBackInBoxes,
): Promise<{ handedBackAt: string }> {
  if (!may(act.actor.roles, 'lead'))
    throw new ProblemError('not-allowed', 'Only a lead hands an engine back in boxes.');
  const job = await openJob(act, jobId);
  const { engineId, ownerId } = found(await findJob(act.sql, jobId), 'such job');
  const { open: openingId } = await findOpenings(act.sql, jobId);
  if (openingId === null) throw new ProblemError('refused', 'The engine is not open. Hand it back whole.');
  const reasons = await reasonsAgainst(act.sql, { jobId, engineId, viewerId: act.actor.id });
  const held = reasons.filter(({ kind }) => firm.has(kind));
  if (held.length > 0) {
    const why = held.map(({ words }) => words).join(' ');
    throw new ProblemError('not-closed', `It can’t go yet: everything of it has to be here. ${why}`, { reasons: held });
  }
  await refuseStillIn(act, openingId);
  const reason = asked.reason.trim();
  const lines = await lyingPieces(act.sql, jobId);
  refuseOtherCounts(lines, asked.counts);
  const byId = act.actor.id;
  await insertBoxed(act.sql, {
    ...{ jobId, openingId, cause: asked.cause, reason, byId, lines },
    quoteId: await quoteSaidNo(act, { jobId, cause: asked.cause }),
    obligations: await obligationsOpen(act.sql, { jobId, engineId, viewerId: byId }),
  });
  const overridden = reasons.filter(({ kind }) => !packed.has(kind)).map(({ words }) => words);
  await insertOverride(act.sql, { jobId, reasons: overridden, words: reason, byId });
  await leaveInBoxes(act, { openingId, jobId, engineId, reason });
  return sendHome(act, {
    ...{ jobId, number: job.number, engineId, ownerId, note: asked.note, overridden },
    inBoxes: true,
  });
}

async function quoteSaidNo(
  act: Act,
  { jobId, cause }: { readonly jobId: string; readonly cause: HandBackInBoxes['cause'] },
): Promise<string | null> {
  if (cause === 'withdrawn') return null;
  const quote = await findNewestQuote(act.sql, jobId);
  if (quote?.answer === 'no') return quote.id;
  throw new ProblemError(
    'refused',
    'Nobody has written down the owner’s no to the newest quote. Record it at the quote, or say that the owner withdraws.',
    { errors: [{ pointer: '/cause', detail: 'no such answer' }] },
  );
}

const placeOf = (label: string | null) => (label === null ? 'Beside the engine' : `Tray ${label}`);

/** Counted and told must be the same, line by line: what differs is settled in the tally before anything goes. */
function refuseOtherCounts(lines: Lines, counts: HandBackInBoxes['counts']): void {
  const keyOf = (of: { trayId: string | null; pieceId: string }) => `${of.trayId} ${of.pieceId}`;
  const counted = new Map(counts.map((each) => [keyOf(each), each.count]));
  if (counted.size < counts.length)
    throw new ProblemError('refused', 'A line is counted twice in one go. Count it once.');
  const known = new Set(lines.map(keyOf));
  if (counts.some((each) => !known.has(keyOf(each)))) {
    throw new ProblemError('conflict', 'Something counted lies elsewhere by now. Read the packing list again.');
  }
  const faults = lines.flatMap((line) => {
    const count = counted.get(keyOf(line));
    if (count === line.count) return [];
    const where = `${placeOf(line.label)}, ${line.name}`;
    return [count === undefined ? `${where}: not counted` : `${where}: ${count} counted, ${line.count} in the tally`];
  });
  if (faults.length === 0) return;
  throw new ProblemError(
    'refused',
    `${faults.join('. ')}. Count every tray; what is not there is found or accounted for in the tally first.`,
    { errors: faults.map((detail) => ({ pointer: '/counts', detail })) },
  );
}
