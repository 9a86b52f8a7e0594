import type { AssemblyPage } from '#contracts/assembly.ts';
import { rounded } from '#contracts/figures.ts';
import type { MicroDegrees } from '#domain/units/quantity.ts';
import { assemblyAtTheGate } from '#features/openings/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findJob } from './queries.ts';
import { ringsNow } from './ring-service.ts';
import { setsNow, wrenchesNow } from './torque-service.ts';
import { valvesNow } from './valve-standing.ts';

export { headsBeside, recordFitted } from './fitted-service.ts';
export { proposeHeadShims, proposeHeadsShims, takeHeadShims, takeHeadsShims } from './head-shims-service.ts';
export { proposeShim, takeShim } from './lash-service.ts';
export { logPull } from './pull-service.ts';
export { inspectFasteners, loosenedWithPieces, setLoosened } from './reuse-service.ts';
export { recordRings, signRings } from './ring-service.ts';
export { strikePull } from './strike-service.ts';
export { guardWords, pastUsualWords, pullRefusal, wrenchFault } from './words.ts';

const angleOrNull = (angle: MicroDegrees | null | undefined) =>
  angle === null || angle === undefined ? null : rounded(angle, { unit: 'deg', decimals: 0 });

/** Everything the assembly bench shows of a job: valves, rings, fastener sets. */
export async function assemblyPage(sql: Sql, jobId: string): Promise<AssemblyPage> {
  const job = found(await findJob(sql, jobId), 'such job');
  const asked = await assemblyAtTheGate(sql, job);
  const { sheet, placement, standings } = await ringsNow(sql, job);
  return {
    jobId: job.jobId,
    engineId: job.engineId,
    serial: job.serial,
    family: job.family,
    openingId: job.openingId,
    valves: [...(await valvesNow(sql, job, asked.lash))],
    rings: [...standings],
    zones: sheet.clock.zones.map(({ from, to, reason }) => ({
      from: rounded(from, { unit: 'deg', decimals: 0 }),
      to: rounded(to, { unit: 'deg', decimals: 0 }),
      reason,
    })),
    leastSeparation: angleOrNull(sheet.clock.leastSeparation),
    railOffset: angleOrNull(sheet.clock.railOffset),
    ringsPlaced:
      placement === undefined
        ? null
        : {
            id: placement.id,
            by: { id: placement.byId, name: placement.by },
            at: placement.at,
            marksWell: placement.marksWell,
            signedBy:
              placement.signedById === null ? null : { id: placement.signedById, name: placement.signedBy ?? '' },
          },
    ringsRequired: asked.rings,
    sets: [...(await setsNow(sql, job, asked.sets))],
    wrenches: await wrenchesNow(sql),
  };
}
