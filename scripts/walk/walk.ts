import type { TakeIn } from '#contracts/intake.ts';
import { assemble, close } from './assemble.ts';
import { type Person, readPeople, signIn } from './client.ts';
import type { Job, Walk } from './context.ts';
import { decide, quote, settleTheRest } from './decide.ts';
import { handOver } from './hand-over.ts';
import { measure, measureAgain } from './measure.ts';
import { sendCylinderOut } from './outside.ts';
import { issue, reserve } from './parts.ts';
import { handBack, prove } from './prove.ts';
import { heading, say } from './say.ts';
import { findShop, takeToBench } from './shop.ts';
import { strip } from './strip.ts';

/** The demo's PINs on a server that only this machine reaches; WALK_PINS ("name=pin,name=pin") gives others. */
const demoPins: Readonly<Record<string, string>> = {
  'Maren Tolk': '4101',
  'Idris Fenwick': '4202',
  'Hetty Varga': '4303',
  'Nadia Quill': '4404',
  'Oskar Pell': '4505',
};

function pins(): Readonly<Record<string, string>> {
  const given = process.env.WALK_PINS;
  if (given === undefined) return demoPins;
  return {
    ...demoPins,
    ...Object.fromEntries(given.split(',').map((pair) => pair.split('=').map((text) => text.trim()))),
  };
}

async function signInByName(base: string, names: readonly string[]): Promise<readonly Person[]> {
  const { people } = await readPeople(base);
  return Promise.all(
    names.map((name) => {
      const person = people.find((each) => each.name === name);
      if (person === undefined)
        throw new Error(
          `${name} does not work here: the walk needs the demo shop (an empty database, CROSSHATCH_DEMO=1).`,
        );
      return signIn(base, person, pins()[name] ?? '');
    }),
  );
}

async function takeIn(walk: Walk): Promise<Job> {
  heading('Take in');
  const asked: TakeIn = {
    engine: { serial: walk.serial, familyId: walk.familyId },
    owner: { name: 'Ingrid Falk', contact: 'calls after five' },
    hours: '243.5',
    complaint: 'Hard to start hot, smokes on the overrun',
    wishes: 'Keep the old piston for me',
    bayId: walk.bays.rack,
  };
  const job = await walk.writer.post<{ id: string; number: number; engineId: string }>('/jobs', asked);
  say(`${walk.serial} at 243.5 h, job ${job.number}, on the rack`);
  await walk.writer.post(`/jobs/${job.id}/assigned-bay`, { bayId: walk.bays.strip });
  await walk.writer.post(`/jobs/${job.id}/promises`, {
    readyOn: new Date(Date.now() + 21 * 86_400_000).toISOString().slice(0, 10),
    sureOf5: 4,
  });
  say('the strip bay is assigned, a date promised, 4 times of 5');
  return { jobId: job.id, engineId: job.engineId, number: job.number };
}

/** The whole walk against a server; returns the job whose sheet it ends in. */
export async function walkThrough(base: string): Promise<Job> {
  const [lead, writer, clerk, stripper, measurer] = await signInByName(base, [
    'Maren Tolk',
    'Idris Fenwick',
    'Hetty Varga',
    'Nadia Quill',
    'Oskar Pell',
  ]);
  if (!lead || !writer || !clerk || !stripper || !measurer) throw new Error('Not everybody could sign in.');
  const walk: Walk = {
    base,
    lead,
    writer,
    clerk,
    stripper,
    measurer,
    ...(await findShop(lead)),
    serial: `H355-W${Date.now().toString().slice(-7)}`,
  };
  const job = await takeIn(walk);
  const placeId = await takeToBench(walk, job);
  const openingId = await strip(walk, job);
  await handOver(walk, job, placeId);
  await measure(walk, job);
  await decide(walk, job);
  await reserve(walk, job);
  await quote(walk, job);
  await sendCylinderOut(walk, job);
  await measureAgain(walk, job);
  await issue(walk, job);
  await assemble(walk, { job, openingId });
  await settleTheRest(walk, job);
  await close(walk, { job, openingId });
  await prove(walk, job);
  await handBack(walk, job);
  console.log(`\nThe build sheet of job ${job.number}: ${base}/sheets/${job.jobId}`);
  return job;
}
