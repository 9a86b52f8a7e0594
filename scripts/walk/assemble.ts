import type { AssemblyPage, ShimAnswer } from '#contracts/assembly.ts';
import type { Opening } from '#contracts/openings.ts';
import type { ClosingCheck } from '#contracts/searches.ts';
import { refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { beginProcedure, follow } from './follow.ts';
import { measureLash } from './measure.ts';
import { issueReserved } from './parts.ts';
import { heading, refused, say } from './say.ts';

const page = (walk: Walk, job: Job) => walk.measurer.get<AssemblyPage>(`/jobs/${job.jobId}/assembly`);

/** Ring gaps: first against the rule, which is told, then as the sheet says. */
async function placeRings(walk: Walk, job: Job): Promise<void> {
  const { rings } = await page(walk, job);
  const place = (
    gaps: readonly { ring: string; angle: { value: string; unit: string }; faces?: 'crown' | 'skirt' }[],
  ) =>
    walk.measurer.post<{ rings: { name: string; faults: string[] }[] }>(`/jobs/${job.jobId}/ring-placements`, {
      gaps,
    });
  const asSheet = rings.flatMap(({ ring, aim, faces }) =>
    aim === null ? [] : [{ ring, angle: aim.angle, ...(faces === 'either' ? {} : { faces }) }],
  );
  const [first, second, ...others] = asSheet;
  if (first !== undefined && second !== undefined) {
    const tried = await place([first, { ...second, angle: first.angle }, ...others]);
    for (const { name, faults } of tried.rings) for (const fault of faults) say(`${name}: ${fault}`);
  }
  const placed = await place(asSheet);
  say(
    `ring gaps at ${asSheet.map(({ ring, angle }) => `${ring} ${angle.value}°`).join(', ')}: ${placed.rings.every(({ faults }) => faults.length === 0) ? 'all stand well' : 'not well'}`,
  );
}

/** A second person signs the gaps off. */
async function signRings(walk: Walk, job: Job): Promise<void> {
  const { ringsPlaced } = await page(walk, job);
  if (ringsPlaced === null) return;
  refused((await refusalOf(walk.measurer.post(`/ring-placements/${ringsPlaced.id}/sign-off`))).detail);
  await walk.stripper.post(`/ring-placements/${ringsPlaced.id}/sign-off`);
  say(`ring gaps signed off by ${walk.stripper.name}`);
}

/** Bolts that were loosened and may be used again once each was looked at. */
export async function inspectBolts(walk: Walk, job: Job): Promise<void> {
  for (const { code, name, reuse, renewals } of (await page(walk, job)).sets) {
    if (reuse !== 'inspect' || !renewals.some(({ open }) => open)) continue;
    await walk.measurer.post(`/jobs/${job.jobId}/fastener-inspections`, {
      set: code,
      words: 'threads clean, lengths alike',
    });
    say(`${name}: looked at each, fit to be used again`);
  }
}

/** Every set, stage by stage in its order; one position is skipped on purpose and caught. */
async function torque(walk: Walk, job: Job): Promise<void> {
  let skipped = false;
  for (const { code } of (await page(walk, job)).sets.filter(({ required }) => required)) {
    for (;;) {
      const set = (await page(walk, job)).sets.find((each) => each.code === code);
      if (set?.next == null) break;
      const { fastener, stage, figure, instrumentCode } = set.next;
      const pull = (which: number) =>
        walk.measurer.post(`/jobs/${job.jobId}/torque-pulls`, {
          set: code,
          fastener: which,
          stage,
          value: figure,
          ...(instrumentCode === null ? {} : { instrumentCode }),
        });
      const later = set.stages.find((each) => each.ordinal === stage)?.missing[1];
      if (!skipped && later !== undefined) {
        refused((await refusalOf(pull(later))).detail);
        skipped = true;
      }
      await pull(fastener);
    }
    const done = (await page(walk, job)).sets.find((each) => each.code === code);
    say(
      `${done?.name}: ${done?.pulls.length} pulls in ${done?.stages.length} stages, ${done?.stages.map(({ figure }) => `${figure.value} ${figure.unit}`).join(', ')}`,
    );
  }
}

/** One valve's lash measured, its shim computed and taken. */
async function shim(walk: Walk, job: Job): Promise<void> {
  const valve = (await page(walk, job)).valves.find(({ adjuster }) => adjuster !== 'screw');
  if (valve === undefined) return;
  const question = {
    valve: valve.code,
    lash: { low: '0.08', high: '0.09', unit: 'mm' },
    fitted: { value: '2.350', unit: 'mm' },
  };
  const answer = await walk.measurer.post<ShimAnswer>(`/jobs/${job.jobId}/shims`, question);
  say(
    `${valve.name}: lash 0.08 – 0.09 over 2.350 wants ${answer.wanted.low} – ${answer.wanted.high}; ${answer.chosen?.thickness.value} mm, ${answer.chosen?.words}, lash then ${answer.chosen?.after.low} – ${answer.chosen?.after.high}`,
  );
  say(await issueReserved(walk, job));
}

/** What was put in comes out, each by a named act. */
async function takeOut(walk: Walk, openingId: string): Promise<void> {
  const { putIn } = await walk.measurer.get<Opening>(`/openings/${openingId}`);
  for (const { id, name, where, stillIn } of putIn.filter((thing) => thing.stillIn > 0)) {
    await walk.measurer.post(`/put-in/${id}/taken-out`, { count: stillIn });
    say(`${stillIn} × ${name} out of the ${where}`);
  }
}

/** Pieces go back by the tally: what is used once is renewed, the rest fitted again. */
async function putBack(walk: Walk, openingId: string): Promise<void> {
  const opening = await walk.measurer.get<Opening>(`/openings/${openingId}`);
  const loose = opening.pieces.filter((piece) => (piece.loose ?? 0) > 0);
  const groups = [
    { act: 'renewed', words: 'pieces renewed', of: loose.filter((piece) => piece.oneTime) },
    { act: 'fitted', words: 'pieces fitted again', of: loose.filter((piece) => !piece.oneTime) },
  ];
  for (const { act, words, of } of groups) {
    const pieces = of.map(({ id, loose: count }) => ({ pieceId: id, count: count ?? 0 }));
    if (pieces.length === 0) continue;
    await walk.measurer.post(`/openings/${openingId}/pieces/${act}`, { pieces });
    say(`${pieces.reduce((sum, { count }) => sum + count, 0)} ${words}`);
  }
}

/** Assembles by the procedure: rings, shim, torque, pieces, lash measured as built. */
export async function assemble(walk: Walk, { job, openingId }: { job: Job; openingId: string }): Promise<void> {
  heading('Assemble: ring gaps, shims, torque, every piece accounted for');
  const early = await refusalOf(walk.measurer.post(`/openings/${openingId}/close`, {}));
  const { reasons } = early as { readonly reasons?: readonly { readonly words: string }[] };
  for (const { words } of (reasons ?? []).slice(0, 4)) refused(words);
  say(`… ${reasons?.length ?? 0} reasons in all, each with what and how many`);
  await placeRings(walk, job);
  await signRings(walk, job);
  await shim(walk, job);
  await takeOut(walk, openingId);
  await putBack(walk, openingId);
  await torque(walk, job);
  const { valves } = await page(walk, job);
  await measureLash(walk, job, valves);
  say(
    `lash measured again: ${(await page(walk, job)).valves.map(({ name, lash }) => `${name} ${lash?.low} – ${lash?.high}`).join(', ')}`,
  );
}

/** The closing check by another person than who put the pieces back, the last removed first. */
async function check(walk: Walk, openingId: string): Promise<void> {
  const { lines } = await walk.stripper.get<ClosingCheck>(`/openings/${openingId}/check`);
  const left = lines.filter(({ ticked }) => ticked === null).map(({ id }) => id);
  const own = await refusalOf(walk.measurer.post(`/openings/${openingId}/check`, { lines: left.slice(0, 1) }));
  refused(own.detail);
  await walk.stripper.post(`/openings/${openingId}/check`, { lines: left });
  say(`${left.length} lines ticked in reverse order of removal, from ${lines[0]?.name} to ${lines.at(-1)?.name}`);
}

/** Closes the engine, its assembly steps marked by two people where the procedure asks for two. */
export async function close(walk: Walk, { job, openingId }: { job: Job; openingId: string }): Promise<void> {
  heading('Close');
  const run = await beginProcedure(walk.measurer, { walk, job, kind: 'assemble' });
  await follow(run, { walk, job, by: walk.measurer, second: walk.stripper, work: async () => undefined });
  await check(walk, openingId);
  const closed = await walk.measurer.post<{ minutesOpen: number }>(`/openings/${openingId}/close`, {
    note: 'Turned over by hand twice, free',
  });
  say(`closed after ${closed.minutesOpen} min open, nothing left out`);
}
