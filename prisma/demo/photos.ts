import sharp from 'sharp';
import { type Prepared, prepare, smallerHashes } from '../../server/platform/files/picture.ts';
import { type Instant, isoOf } from './clock.ts';
import { type DrawingName, drawingOf, paperOf } from './drawn-photos.ts';
import { balancerStep } from './floor-bottom.ts';
import type { Row } from './insert.ts';
import type { PersonKey } from './people.ts';
import { known, there, type World } from './world.ts';

const report = [
  'Saltmere Plating: report (made up for the demo, not a real document)',
  'Cylinder H388-0119: stripped, bored, plated, honed.',
  'Plating as agreed; size for the piston to follow with the part.',
];

/** Everything that the demo's photos are made of, as the store keeps it. */
export interface DemoPictures {
  readonly drawn: ReadonlyMap<DrawingName, Prepared>;
  readonly paper: Prepared;
}

export async function drawPictures(): Promise<DemoPictures> {
  const names: readonly DrawingName[] = ['scoredBore', 'pistonCrown', 'engineAsItCame', 'camMarks', 'balancerMarks'];
  const drawn = await Promise.all(
    names.map(async (name) => [name, await prepare(await sharp(drawingOf(name)).png().toBuffer())] as const),
  );
  return { drawn: new Map(drawn), paper: await prepare(paperOf(report)) };
}

interface Told {
  readonly serial: string;
  readonly at: Instant;
  readonly by: PersonKey;
  readonly terminal: string;
  readonly file: Prepared;
  readonly caption: string;
  readonly name?: string;
  readonly onSheet?: boolean;
  /** The column it is attached by and what the timeline says of it; left out: the engine. */
  readonly of?: (job: Row) => { readonly columns: Row; readonly words: string };
}

const nothing: Row = {
  run_id: null,
  step_id: null,
  piece_id: null,
  reading_id: null,
  finding_id: null,
  obligation_id: null,
  handover_id: null,
  place_code: null,
};

function add(world: World, told: Told): void {
  const { rows } = world;
  const engine = there(
    rows.of('engine').find(({ serial }) => serial === told.serial),
    told.serial,
  );
  const job = there(
    rows.of('job').find((one) => one.engine_id === engine.id && one.handed_back_at === null),
    `an open job of ${told.serial}`,
  );
  const of = told.of?.(job) ?? { columns: {}, words: '' };
  const { hash, type, bytes, width, height } = told.file;
  const id = world.id('photo', told.at);
  const common = { added_by_id: known(world.people, told.by), terminal_id: known(world.terminals, told.terminal) };
  rows.add('photo', {
    ...{ id, engine_id: engine.id ?? null, job_id: job.id ?? null, hash, type, bytes, width, height },
    ...{ name: told.name ?? '', caption: told.caption, taken_at: isoOf(told.at), added_at: isoOf(told.at) },
    ...nothing,
    ...of.columns,
    ...common,
  });
  if (told.onSheet === true) {
    const at = told.at + 60_000;
    rows.add('photo_note', {
      ...{ id: world.id('photo_note', at), photo_id: id, caption: told.caption, on_sheet: true },
      ...{ said_by_id: known(world.people, told.by), said_at: isoOf(at) },
    });
  }
  world.events.push({
    at: told.at,
    kind: 'photo.added',
    actor: told.by,
    terminal: told.terminal,
    engine,
    jobId: String(job.id),
    data: {
      photo: id,
      of: of.words,
      caption: told.caption,
      ...(told.name === undefined ? {} : { document: told.name }),
    },
  });
}

/** At a step that asks for its photo; the mark of the step no longer says why there is none. */
function atItsStep(world: World, title: string) {
  const { rows } = world;
  const isNamed = (id: Row[string]) => rows.of('procedure_step').some((step) => step.id === id && step.title === title);
  const mark = there(
    rows.of('step_mark').find(({ step_id, mark: as }) => as === 'done' && isNamed(step_id ?? null)),
    `a mark at ${title}`,
  );
  const { ordinal } = there(
    rows.of('procedure_step').find(({ id }) => id === mark.step_id),
    title,
  );
  mark.no_photo = '';
  return {
    at: Date.parse(String(mark.marked_at)) - 60_000,
    of: () => ({
      columns: { run_id: mark.run_id ?? null, step_id: mark.step_id ?? null },
      words: `Step ${String(ordinal)}, ${title}`,
    }),
  };
}

/** A few photos of what stands in the shop; all of them are drawings, and say so. */
export function addPhotos(world: World, { drawn, paper }: DemoPictures): void {
  for (const file of drawn.values())
    for (const { part, hash } of smallerHashes(file))
      world.rows.add('file_part', { hash: file.hash, part, part_hash: hash });
  const { at } = world.clock;
  const picture = (name: DrawingName) => known(drawn, name);
  const nadia = { by: 'nadia', terminal: 'measuring' } as const;
  const place = (code: string, words: string) => () => ({ columns: { place_code: code }, words });
  add(world, {
    ...{ serial: 'H355-0417', at: at(0, '10:39'), ...nadia, file: picture('scoredBore'), onSheet: true },
    caption: 'Drawing, not a photo: scores on the thrust side, below the top ring',
    of: (job) => {
      const bore = world.rows.of('finding').findLast((one) => one.job_id === job.id && one.dimension_code === 'bore');
      const { id, dimension_name: name, round } = there(bore, 'the finding of the bore');
      return { columns: { finding_id: id ?? null }, words: `${String(name)}, ${String(round)}` };
    },
  });
  add(world, {
    ...{ serial: 'H355-0417', at: at(0, '09:31'), ...nadia, file: picture('pistonCrown'), onSheet: true },
    caption: 'Drawing, not a photo: nick at the edge of the crown',
    of: place('piston', 'Piston'),
  });
  add(world, {
    ...{ serial: 'H355-0388', at: at(0, '10:31'), by: 'oskar', terminal: 'strip', file: picture('camMarks') },
    caption: 'Drawing, not a photo: cam marks level with the face before the caps came off',
  });
  add(world, {
    ...{ serial: 'H355-0377', at: at(0, '10:36'), by: 'idris', terminal: 'counter', file: picture('engineAsItCame') },
    caption: 'Drawing, not a photo: oil below the base gasket as it came in',
  });
  add(world, {
    ...{ serial: 'H355-0310', by: 'bea', terminal: 'assembly', file: picture('balancerMarks') },
    ...atItsStep(world, balancerStep),
    caption: 'Drawing, not a photo: crank mark and balancer mark level, the tab bent',
  });
  add(world, {
    ...{ serial: 'H388-0119', at: at(-1, '11:20'), by: 'maren', terminal: 'counter', file: paper },
    caption: 'Made up for the demo: what the plating shop wrote',
    name: 'plating report (made up).pdf',
    of: place('cylinder', 'Cylinder'),
  });
}
