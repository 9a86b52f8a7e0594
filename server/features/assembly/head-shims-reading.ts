import { roundedInterval } from '#contracts/figures.ts';
import type { HeadShimsQuestion } from '#contracts/head-shims.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { type Asked, readAsked, usualUncertainty, valveNamed } from './lash-service.ts';
import { type FittedRow, findFitted, findJob, findLash, findValves, type LashRow, type ValveRow } from './queries.ts';

type GivenValve = HeadShimsQuestion['valves'][number];

/** The head of one job, read: its engine, the valves of its sheet, and what was asked of each. */
export interface Subject {
  readonly jobId: string;
  readonly job: number;
  readonly engineId: string;
  readonly serial: string;
  readonly rows: readonly ValveRow[];
  readonly asked: readonly Asked[];
}

/** Refuses with one fault, at its place in the body. */
export function refuseAt(pointer: string, detail: string): never {
  throw new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
}

/** Reads the valves asked about; a lash or a fitted shim that is left out is the one last measured in the job. */
export async function readHead(
  sql: Sql,
  head: { readonly jobId: string; readonly valves: readonly GivenValve[] },
  at: string,
): Promise<Subject> {
  const { jobId, number, engineId, serial, revisionId } = found(await findJob(sql, head.jobId), 'such job');
  const [rows, lash, fitted] = [
    await findValves(sql, revisionId),
    await findLash(sql, jobId),
    await findFitted(sql, jobId),
  ];
  const asked = head.valves.map((given, index): Asked => {
    const pointer = `${at}/valves/${index}`;
    if (head.valves.findIndex(({ valve }) => valve === given.valve) !== index) {
      refuseAt(`${pointer}/valve`, `${given.valve} is there twice.`);
    }
    const row = valveNamed(rows, given.valve, pointer);
    return readAsked(
      rows,
      {
        valve: given.valve,
        lash: given.lash ?? lastLash(lash, row, pointer),
        ...fittedOf(given, { row, measured: fitted, pointer }),
      },
      pointer,
    );
  });
  return { jobId, job: number, engineId, serial, rows, asked };
}

function lastLash(measured: readonly LashRow[], row: ValveRow, at: string) {
  const lash = measured.find(({ dimension }) => dimension === row.dimension);
  if (lash === undefined) refuseAt(`${at}/lash`, `The lash of ${row.name} was not measured in this job yet.`);
  return roundedInterval(lash.low, lash.high, { unit: 'mm', decimals: 6 });
}

/** A screw has no shim: nothing is reckoned with its thickness. */
const noShim = { fitted: { value: '0', unit: 'mm' } };

function fittedOf(
  given: GivenValve,
  of: { readonly row: ValveRow; readonly measured: readonly FittedRow[]; readonly pointer: string },
) {
  const { fitted, fittedUncertainty } = given;
  const said = fittedUncertainty === undefined ? {} : { fittedUncertainty };
  if (fitted !== undefined) return { fitted, ...said };
  if (of.row.adjuster === 'screw') return noShim;
  const known = of.measured.find(({ valve }) => valve === given.valve);
  if (known === undefined) {
    refuseAt(`${of.pointer}/fitted`, `Measure the shim that is in ${of.row.name} with a micrometer and key it.`);
  }
  const micrometres = (nm: number) => ({ value: String(nm / 1_000), unit: 'um' });
  return {
    fitted: micrometres(known.thickness),
    fittedUncertainty: micrometres(known.uncertainty ?? usualUncertainty(known.measured)),
    ...said,
  };
}
