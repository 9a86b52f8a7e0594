import type { AssemblyPage, ValveStanding } from '#contracts/assembly.ts';
import { rounded, roundedInterval } from '#contracts/figures.ts';
import type { LashFact } from '#domain/closing/closing-the-opening.ts';
import { assemblyAtTheGate } from '#features/openings/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { type ChoiceRow, findChoices, findJob, findLash, findValves, type LashRow, type ValveRow } from './queries.ts';
import { ringsNow } from './ring-service.ts';
import { setsNow } from './torque-service.ts';

export { proposeHeadShims, takeHeadShims } from './head-shims-service.ts';
export { proposeShim, takeShim } from './lash-service.ts';
export { recordRings } from './ring-service.ts';
export { logPull, strikePull } from './torque-service.ts';

const form = { unit: 'mm', decimals: 2 } as const;

function valveStanding(
  valve: ValveRow,
  of: {
    readonly lash: readonly LashRow[];
    readonly choices: readonly ChoiceRow[];
    readonly verified: ReadonlyMap<string, LashFact['standing']>;
  },
): ValveStanding {
  const lash = of.lash.find(({ dimension }) => dimension === valve.dimension);
  const choice = of.choices.find((each) => each.valve === valve.code);
  const range =
    valve.low === null || valve.high === null
      ? null
      : { low: rounded(valve.low, form).value, high: rounded(valve.high, form).value, unit: form.unit };
  return {
    code: valve.code,
    name: valve.name,
    side: valve.side,
    adjuster: valve.adjuster,
    dimension: valve.dimension,
    wanted: rounded(valve.wanted, { unit: 'mm', decimals: 2 }),
    range,
    lash: lash === undefined ? null : roundedInterval(lash.low, lash.high, form),
    verified: of.verified.get(valve.code) ?? 'not-verified',
    choice:
      choice === undefined
        ? null
        : {
            thickness: rounded(choice.chosen, { unit: 'mm', decimals: 3 }),
            words: choice.words,
            after: roundedInterval(choice.low, choice.high, { unit: 'mm', decimals: 3 }),
            guaranteed: choice.guaranteed,
            by: { id: choice.byId, name: choice.by },
            at: choice.at,
          },
  };
}

/** Everything the assembly bench shows of a job: valves, rings, fastener sets. */
export async function assemblyPage(sql: Sql, jobId: string): Promise<AssemblyPage> {
  const job = found(await findJob(sql, jobId), 'such job');
  const asked = await assemblyAtTheGate(sql, job);
  const [valves, lash, choices] = [
    await findValves(sql, job.revisionId),
    await findLash(sql, jobId),
    await findChoices(sql, jobId),
  ];
  const { sheet, placement, standings } = await ringsNow(sql, job);
  return {
    jobId: job.jobId,
    engineId: job.engineId,
    serial: job.serial,
    family: job.family,
    openingId: job.openingId,
    valves: valves.map((valve) => valveStanding(valve, { lash, choices, verified: asked.lash })),
    rings: [...standings],
    zones: sheet.clock.zones.map(({ from, to, reason }) => ({
      from: rounded(from, { unit: 'deg', decimals: 0 }),
      to: rounded(to, { unit: 'deg', decimals: 0 }),
      reason,
    })),
    leastSeparation: job.separation === null ? null : rounded(job.separation, { unit: 'deg', decimals: 0 }),
    ringsPlaced:
      placement === undefined
        ? null
        : { by: { id: placement.byId, name: placement.by }, at: placement.at, marksUp: placement.marksUp },
    ringsRequired: asked.rings,
    sets: [...(await setsNow(sql, job, asked.sets))],
  };
}
