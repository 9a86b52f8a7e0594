import type { FitPart, FittedPart } from '#contracts/obligations.ts';
import { hoursOf, openJob } from '#features/intake/service.ts';
import { type Sheet, specOf, standardClass } from '#features/specs/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { type FittedPartRow, findJobFacts } from '../judging/queries.ts';
import { insertPart } from './queries.ts';

export const partOnWire = (row: FittedPartRow): FittedPart => ({
  id: row.id,
  placeCode: row.placeCode,
  name: row.name,
  sizeClass: row.sizeClass,
  grade: row.grade,
  mark: row.mark,
  fittedAt: row.fittedAt,
  fittedHours: hoursOf(row.fittedMinutes),
});

function refuseUnknown(sheet: Sheet, placeCode: string, sizeClass: string): void {
  const places = sheet.places.map(({ code }) => code);
  if (!places.includes(placeCode)) {
    throw new ProblemError('refused', `The spec sheet has no place ${placeCode}. It has ${places.join(', ')}.`, {
      errors: [{ pointer: '/placeCode', detail: 'is not on the spec sheet' }],
    });
  }
  const classes = sheet.dimensions
    .filter(({ place }) => place.code === placeCode)
    .flatMap(({ limits }) => [...limits.keys()]);
  if (sizeClass !== standardClass && !classes.includes(sizeClass)) {
    const listed = [...new Set([standardClass, ...classes])].join(', ');
    throw new ProblemError('refused', `The spec sheet lists no size class ${sizeClass} here. It lists ${listed}.`, {
      errors: [{ pointer: '/sizeClass', detail: 'is not on the spec sheet' }],
    });
  }
}

/** A part was renewed or machined: the old period ends, a new one starts, and with it a new line of wear. */
export async function fitPart(act: Act, asked: { readonly jobId: string } & FitPart): Promise<FittedPart> {
  const job = await openJob(act, asked.jobId);
  const facts = found(await findJobFacts(act.sql, job.id), 'such job');
  const sizeClass = asked.sizeClass?.trim() ?? standardClass;
  refuseUnknown(await specOf(act.sql, job.revisionId), asked.placeCode, sizeClass);
  const part = {
    placeCode: asked.placeCode,
    name: asked.name.trim(),
    sizeClass,
    grade: asked.grade?.trim() ?? '',
    mark: asked.mark?.trim() ?? '',
  };
  const { id, fittedAt } = await insertPart(act.sql, {
    ...part,
    engineId: job.engineId,
    jobId: job.id,
    minutes: facts.runningMinutes,
  });
  await act.event('part.fitted', { engineId: job.engineId, jobId: job.id, data: { id, ...part } });
  return { id, ...part, fittedAt, fittedHours: hoursOf(facts.runningMinutes) };
}
