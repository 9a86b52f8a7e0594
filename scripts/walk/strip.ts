import type { z } from 'zod';
import type { Trays } from '#contracts/custody.ts';
import type { Opening } from '#contracts/openings.ts';
import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import { putInKindOf } from '#domain/tally/put-in-kind.ts';
import { type Person, refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { beginProcedure, follow, leaveAndResume, type Step } from './follow.ts';
import { heading, refused, say } from './say.ts';

type Run = ProcedureRun;
type Piece = Step['pieces'][number];

/** One tray for hardware, one for the valve train, one for the piston; head and cylinder travel alone. */
async function makeTrays(person: Person, job: Job): Promise<ReadonlyMap<string, string>> {
  const wanted = [
    { name: 'Covers and hardware' },
    { name: 'Valve train' },
    { name: 'Piston' },
    { name: 'Head', alone: true, layer: 'head' },
    { name: 'Cylinder', alone: true, layer: 'cylinder' },
  ];
  const trays = new Map<string, string>();
  for (const tray of wanted) {
    const made = await person.post<{ id: string; label: string }>(`/jobs/${job.jobId}/trays`, tray);
    trays.set(tray.name, made.id);
    say(`tray ${made.label}: ${tray.name}`);
  }
  return trays;
}

function trayFor(step: Step, piece: Piece): string {
  if (piece.layer === 'head') return 'Head';
  if (piece.layer === 'cylinder') return 'Cylinder';
  if (/cam|bucket|shim|rocker/i.test(step.title)) return 'Valve train';
  return /piston/i.test(step.title) ? 'Piston' : 'Covers and hardware';
}

/** Counts a step's pieces into their trays, as many as are expected less what `missing` says. */
async function countOff(
  person: Person,
  of: { openingId: string; step: Step; trays: ReadonlyMap<string, string>; missing: ReadonlyMap<string, number> },
): Promise<void> {
  for (const [tray, pieces] of groupByTray(of.step)) {
    await person.post(`/openings/${of.openingId}/pieces/off`, {
      trayId: of.trays.get(tray),
      pieces: pieces.map(({ id, name, expected }) => ({
        stepPieceId: id,
        count: expected - (of.missing.get(name) ?? 0),
      })),
    });
  }
}

function groupByTray(step: Step): Map<string, Piece[]> {
  const groups = new Map<string, Piece[]>();
  for (const piece of step.pieces) {
    const tray = trayFor(step, piece);
    groups.set(tray, [...(groups.get(tray) ?? []), piece]);
  }
  return groups;
}

/** Rags and plugs are counted as they go in. */
async function putIn(person: Person, openingId: string, step: Step): Promise<void> {
  for (const { name, count, where } of step.putIn) {
    await person.post(`/openings/${openingId}/put-in`, { kind: putInKindOf(name), name, where, count });
    say(`put in: ${count} × ${name}, ${where}`);
  }
}

/** A dowel short: the step can't be marked done until it is found. */
async function findTheDowel(walk: Walk, of: { run: Run; step: Step; openingId: string; piece: string }): Promise<void> {
  const path = `/procedure-runs/${of.run.id}/steps/${of.step.id}/mark`;
  const refusal = await refusalOf(walk.stripper.post(path, { mark: 'done' }));
  refused(refusal.detail);
  const opening = await walk.stripper.get<Opening>(`/openings/${of.openingId}`);
  const line = opening.pieces.find(({ name }) => name === of.piece);
  await walk.stripper.post(`/openings/${of.openingId}/pieces/found`, {
    pieces: [{ pieceId: line?.id, count: 1 }],
    reason: 'It had stayed in the head',
  });
  say(`${of.piece}: the missing one had stayed in the head`);
}

/** Strips the top end by the procedure, every piece counted off; returns the opening. */
export async function strip(walk: Walk, job: Job): Promise<string> {
  heading('Strip by the procedure, each loose piece tallied');
  const run = await beginProcedure(walk.stripper, { walk, job, kind: 'strip' });
  say(`${run.procedure.name}, ${run.steps.length} steps`);
  const trays = await makeTrays(walk.stripper, job);
  const opening = await walk.stripper.post<{ id: string }>(`/jobs/${job.jobId}/openings`);
  const shortOne =
    run.steps.flatMap(({ pieces }) => pieces).find(({ name, expected }) => /dowel/i.test(name) && expected === 2)
      ?.name ?? '';
  const work = async (step: Step, now: Run): Promise<void> => {
    if (/cams out/i.test(step.title)) {
      await leaveAndResume(now, step, { by: walk.stripper, next: walk.measurer });
    }
    const isShort = step.pieces.some(({ name }) => name === shortOne);
    await countOff(walk.stripper, {
      openingId: opening.id,
      step,
      trays,
      missing: new Map(isShort ? [[shortOne, 1]] : []),
    });
    await putIn(walk.stripper, opening.id, step);
    if (isShort) await findTheDowel(walk, { run: now, step, openingId: opening.id, piece: shortOne });
    const count = step.pieces.reduce((sum, { expected }) => sum + expected, 0);
    const cautions = step.cautions.map(({ hazard, words }) => `  [${hazard}: ${words}]`).join('');
    say(`${step.title}${count === 0 ? '' : `: ${count} pieces off`}${cautions}`);
  };
  await follow(run, { walk, job, by: walk.stripper, second: walk.measurer, work });
  await walk.stripper.post(`/openings/${opening.id}/cover`, { covered: true });
  await walk.stripper.post(`/openings/${opening.id}/looks`, { covered: true, words: 'cloth tight' });
  const standing = await walk.stripper.get<Opening>(`/openings/${opening.id}`);
  say(`open down to the ${standing.depth}, covered with a rag, ${standing.pieces.length} lines on the tally`);
  return opening.id;
}

export type TrayList = z.infer<typeof Trays>;
