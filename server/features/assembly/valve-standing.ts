import type { ValveStanding } from '#contracts/assembly.ts';
import { rounded, roundedInterval } from '#contracts/figures.ts';
import type { LashFact } from '#domain/closing/closing-the-opening.ts';
import type { Sql } from '#platform/database/client.ts';
import {
  type ChoiceRow,
  type FittedRow,
  findChoices,
  findFitted,
  findLash,
  findValves,
  type LashRow,
  type ValveRow,
} from './queries.ts';

type Verified = ReadonlyMap<string, LashFact['standing']>;

interface Known {
  readonly lash: readonly LashRow[];
  readonly choices: readonly ChoiceRow[];
  readonly fitted: readonly FittedRow[];
  readonly verified: Verified;
}

const hundredths = { unit: 'mm', decimals: 2 } as const;
const thousandths = { unit: 'mm', decimals: 3 } as const;

/** The valves of a job as they stand: lash, the shim that is in, what was chosen, whether it was measured after. */
export async function valvesNow(
  sql: Sql,
  job: { readonly jobId: string; readonly revisionId: string },
  verified: Verified,
): Promise<readonly ValveStanding[]> {
  const known = {
    lash: await findLash(sql, job.jobId),
    choices: await findChoices(sql, job.jobId),
    fitted: await findFitted(sql, job.jobId),
    verified,
  };
  return (await findValves(sql, job.revisionId)).map((valve) => standing(valve, known));
}

function standing(valve: ValveRow, known: Known): ValveStanding {
  const { code, name, side, adjuster, dimension, low, high } = valve;
  const lash = known.lash.find((one) => one.dimension === dimension);
  return {
    code,
    name,
    side,
    adjuster,
    dimension,
    wanted: rounded(valve.wanted, hundredths),
    range:
      low === null || high === null
        ? null
        : { low: rounded(low, hundredths).value, high: rounded(high, hundredths).value, unit: hundredths.unit },
    lash: lash === undefined ? null : roundedInterval(lash.low, lash.high, hundredths),
    verified: known.verified.get(code) ?? 'not-verified',
    fitted: fittedOnWire(known.fitted.find((one) => one.valve === code)),
    choice: choiceOnWire(known.choices.find((one) => one.valve === code)),
  };
}

function fittedOnWire(fitted: FittedRow | undefined): ValveStanding['fitted'] {
  if (fitted === undefined) return null;
  const { thickness, printed, byId, by, at } = fitted;
  return {
    thickness: rounded(thickness, thousandths),
    printed: printed === null ? null : rounded(printed, thousandths),
    by: { id: byId, name: by },
    at,
  };
}

function choiceOnWire(choice: ChoiceRow | undefined): ValveStanding['choice'] {
  if (choice === undefined) return null;
  const { chosen, words, low, high, guaranteed, byId, by, at } = choice;
  return {
    thickness: rounded(chosen, thousandths),
    words,
    after: roundedInterval(low, high, thousandths),
    guaranteed,
    by: { id: byId, name: by },
    at,
  };
}
