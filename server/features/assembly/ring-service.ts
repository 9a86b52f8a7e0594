import type { PlaceRings, RingStanding } from '#contracts/assembly.ts';
import type { PlacedGap, RingClock } from '#domain/build/ring-clock.ts';
import { microDegrees } from '#domain/units/quantity.ts';
import { refuseUnlessInHand } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findJob } from './queries.ts';
import { findPlacement, findPlacementToSign, insertPlacement, insertRingSignOff } from './ring-queries.ts';
import { gapsPlaced, ringSheet, ringStandings } from './ring-sheet.ts';

function gapsOf(asked: PlaceRings, clock: RingClock): readonly PlacedGap[] {
  return asked.gaps.map(({ ring, angle, faces }, index) => {
    const pointer = `/gaps/${index}`;
    if (!clock.rings.some(({ code }) => code === ring)) {
      const known = clock.rings.map(({ code }) => code).join(', ');
      throw new ProblemError('not-found', `The spec sheet has no ring ${ring}. It has ${known}.`, {
        errors: [{ pointer: `${pointer}/ring`, detail: 'is not on the sheet' }],
      });
    }
    const base = baseOf(angle, 'angle', `${pointer}/angle`);
    if (base < 0 || base >= 360_000_000) {
      const detail = 'An angle is from 0 to below 360°, clockwise from the arrow on the crown.';
      throw new ProblemError('refused', detail, { errors: [{ pointer: `${pointer}/angle`, detail }] });
    }
    return { ring, angle: microDegrees(base), faces };
  });
}

/** Keeps where the gaps were turned. A placement against the rule is kept too, with its faults: it keeps the engine from closing. */
export async function recordRings(act: Act, jobId: string, asked: PlaceRings): Promise<readonly RingStanding[]> {
  const { engineId } = await openJob(act, jobId);
  await refuseUnlessInHand(act, engineId);
  const job = found(await findJob(act.sql, jobId), 'such job');
  const sheet = await ringSheet(act.sql, job.revisionId);
  if (sheet.clock.rings.length === 0)
    throw new ProblemError('refused', 'The spec sheet of this engine names no rings.');
  const gaps = gapsOf(asked, sheet.clock);
  const standings = ringStandings(sheet, gaps);
  const faults = standings.flatMap(({ ring, name, faults: each }) =>
    each.map((fault) => ({ ring, words: `${name}: ${fault}` })),
  );
  const marksWell = standings.every(({ faces, seenFacing }) => faces === 'either' || faces === seenFacing);
  await insertPlacement(act.sql, {
    jobId,
    gaps: gaps.map(({ faces, ...gap }) => ({ ...gap, ...(faces === undefined ? {} : { faces }) })),
    faults,
    marksWell,
    byId: act.actor.id,
  });
  await act.event('rings.placed', {
    engineId: job.engineId,
    jobId,
    data: {
      gaps: standings.map(({ name, angle, seenFacing }) => ({ ring: name, angle, faces: seenFacing })),
      faults: faults.map(({ words }) => words),
      marksWell,
    },
  });
  return standings;
}

/** A second person's mark under gaps that stand well, their marks seen facing as the sheet says. */
export async function signRings(act: Act, placementId: string): Promise<void> {
  const placement = found(await findPlacementToSign(act.sql, placementId), 'such placement of rings');
  const job = await openJob(act, placement.jobId);
  await refuseUnlessInHand(act, job.engineId);
  if (placement.signed) throw new ProblemError('already-done', 'These ring gaps are signed off already.');
  if (!placement.newest) {
    throw new ProblemError('conflict', 'The rings were turned again since. Look at them as they stand now.');
  }
  if (!placement.well) {
    throw new ProblemError('refused', 'Ring gaps that stand against the rule are not signed off. Turn them first.');
  }
  if (placement.byId === act.actor.id) {
    throw new ProblemError('refused', 'You placed them yourself. Another person has to look and sign.');
  }
  await insertRingSignOff(act.sql, { placementId, byId: act.actor.id });
  await act.event('rings.signed', { engineId: job.engineId, jobId: placement.jobId, data: {} });
}

/** How the rings stand now, and who placed them. */
export async function ringsNow(sql: Sql, job: { jobId: string; revisionId: string; openedAt: string | null }) {
  const sheet = await ringSheet(sql, job.revisionId);
  const placement = await findPlacement(sql, job.jobId, job.openedAt);
  return { sheet, placement, standings: ringStandings(sheet, gapsPlaced(sheet, placement)) };
}
