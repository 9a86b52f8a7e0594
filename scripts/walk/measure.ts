import type { BenchDimension, BenchView } from '#contracts/bench.ts';
import type { Finding } from '#contracts/findings.ts';
import type { RunStep } from '#contracts/procedure-runs.ts';
import type { KeptReadings } from '#contracts/readings.ts';
import { type Person, refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { heading, refused, say } from './say.ts';

type Round = 'as received' | 'after work' | 'as built';

/** How a finding is told in one line. */
export function findingLine({ name, verdict, value, guardBand, probabilityPast }: Finding): string {
  const short = (text: string | null) => text?.replace(/(\.\d{3})\d+$/, '$1') ?? 'no end';
  const figure =
    value.type === 'point'
      ? `${short(value.low)} ± ${short(guardBand.value)} ${value.unit}`
      : value.type === 'felt'
        ? value.play
          ? 'play felt'
          : 'no play'
        : `${short(value.low)} to ${short(value.high)} ${value.unit}`;
  const past = probabilityPast.high >= 0.005 ? `, ${(probabilityPast.high * 100).toFixed(0)} % likely past` : '';
  return `${name}: ${figure}, ${verdict}${past}`;
}

/** Keys one dimension's readings, one for each position in the sheet's order, and tells what came of them. */
async function key(
  person: Person,
  of: { job: Job; round: Round; dimension: BenchDimension; values: readonly string[] },
): Promise<KeptReadings> {
  const { dimension, values } = of;
  const kept = await person.post<KeptReadings>(`/jobs/${of.job.jobId}/readings`, {
    round: of.round,
    dimension: dimension.code,
    readings: dimension.positions.map(({ code }, index) => ({
      position: code,
      repeat: 1,
      text: values[index % values.length],
      unit: dimension.unit,
      instrumentCode: dimension.instruments[0],
      partTemperature: { value: '21.5', unit: 'degC' },
    })),
  });
  for (const finding of kept.findings) say(findingLine(finding));
  for (const check of kept.crossChecks) say(`cross-check: ${check.words}`);
  return kept;
}

export async function benchOf(person: Person, job: Job): Promise<BenchView> {
  return person.get<BenchView>(`/jobs/${job.jobId}/bench`);
}

function dimensionOf(bench: BenchView, code: string): BenchDimension {
  const dimension = bench.dimensions.find((each) => each.code === code);
  if (dimension === undefined) throw new Error(`The spec sheet has no dimension ${code}.`);
  return dimension;
}

/** A reading 25.4 times off is asked about, with what it would be in the other unit. */
async function slipOfTheUnit(walk: Walk, job: Job, bore: BenchDimension): Promise<void> {
  const [first] = bore.positions;
  const refusal = await refusalOf(
    walk.measurer.post(`/jobs/${job.jobId}/readings`, {
      round: 'as received',
      dimension: bore.code,
      readings: [{ position: first?.code, repeat: 1, text: '3.4665', unit: 'mm', instrumentCode: bore.instruments[0] }],
    }),
  );
  refused(refusal.detail);
}

/** What a technician typed into a spreadsheet, semicolons and decimal commas and all. */
const typedByHand = (feeler: string, straightedge: string, small: string, micrometer: string): string =>
  [
    'round;dimension;position;value;unit;instrument;go;no_go;part_temp_c',
    ...[
      ['pin', 'left', '19,995'],
      ['pin', 'middle', '19,994'],
      ['pin', 'right', '19,996'],
    ].map(([d, p, v]) => `as received;${d};${p};${v};mm;${micrometer};;;21,5`),
    ...[
      ['pin-boss', 'left', '20,006'],
      ['pin-boss', 'right', '20,007'],
      ['small-end', 'across', '20,018'],
      ['small-end', 'along', '20,017'],
    ].map(([d, p, v]) => `as received;${d};${p};${v};mm;${small};;;21,5`),
    `as received;ring-gap-top;at;;mm;${feeler};0.52;0.55;`,
    `as received;ring-gap-second;at;;mm;${feeler};0.48;0.50;`,
    ...['long-1', 'long-2', 'end-1', 'end-2', 'diagonal-1', 'diagonal-2'].map(
      (p) => `as received;face-head;${p};;mm;${straightedge};0.02;0.03;`,
    ),
  ].join('\r\n');

/** Corrects the typed sheet to the positions that the spec sheet names; a technician reads them off the template. */
function fitted(csv: string, bench: BenchView): string {
  const rows = csv.split('\r\n');
  const known = new Map(
    bench.dimensions.map(({ code, positions }) => [code, positions.map(({ code: position }) => position)]),
  );
  const used = new Map<string, number>();
  return rows
    .flatMap((row, index) => {
      if (index === 0) return [row];
      const cells = row.split(';');
      const positions = known.get(cells[1] ?? '');
      if (positions === undefined) return [];
      const next = used.get(cells[1] ?? '') ?? 0;
      used.set(cells[1] ?? '', next + 1);
      if (next >= positions.length) return [];
      cells[2] = positions.includes(cells[2] ?? '') ? (cells[2] ?? '') : (positions[next] ?? '');
      return [cells.join(';')];
    })
    .join('\r\n');
}

/** Measures as received: bore and piston keyed at the bench, the rest from a typed file. */
export async function measure(walk: Walk, job: Job): Promise<void> {
  heading('Measure: readings keyed, and a file that somebody typed');
  const bench = await benchOf(walk.measurer, job);
  const bore = dimensionOf(bench, 'bore');
  await slipOfTheUnit(walk, job, bore);
  await key(walk.measurer, {
    job,
    round: 'as received',
    dimension: bore,
    values: ['88.049', '88.041', '88.044', '88.038', '88.034', '88.032'],
  });
  await key(walk.measurer, { job, round: 'as received', dimension: dimensionOf(bench, 'piston'), values: ['87.955'] });
  const gauge = (code: string) => bench.dimensions.find((each) => each.code === code)?.instruments[0] ?? '';
  const faces = bench.dimensions.find(({ code }) => /face|flat/.test(code))?.code ?? 'face-head';
  const csv = fitted(
    typedByHand(gauge('ring-gap-top'), gauge(faces), gauge('pin-boss'), gauge('pin')).replaceAll('face-head', faces),
    bench,
  );
  const bad = csv.replace('19,994;mm', '19,994;N.m');
  const refusal = await refusalOf(walk.measurer.post(`/jobs/${job.jobId}/readings/import`, undefined, { csv: bad }));
  refused(`${refusal.errors?.map(({ pointer, detail }) => `${pointer}: ${detail}`).join('; ')}`);
  const kept = await walk.measurer.post<KeptReadings>(`/jobs/${job.jobId}/readings/import`, undefined, { csv });
  say(`${kept.readings.length} readings imported`);
  for (const finding of kept.findings) say(findingLine(finding));
}

/** After the bore has been replated: it and the new piston are measured again, which proves the decisions. */
export async function measureAgain(walk: Walk, job: Job): Promise<void> {
  heading('Measure again after the work: that discharges what was decided');
  const bench = await benchOf(walk.measurer, job);
  await key(walk.measurer, {
    job,
    round: 'after work',
    dimension: dimensionOf(bench, 'bore'),
    values: ['88.006', '88.005', '88.007', '88.005', '88.006', '88.004'],
  });
  await key(walk.measurer, { job, round: 'after work', dimension: dimensionOf(bench, 'piston'), values: ['87.958'] });
}

/** A lash or gap by the blades that go and don't: the first blade a little above the low end. */
async function keyBlades(person: Person, of: { job: Job; bench: BenchView; code: string; round: Round; low: number }) {
  const dimension = dimensionOf(of.bench, of.code);
  const feeler = of.bench.instruments.find((each) => each.code === dimension.instruments[0]);
  const go = feeler?.blades.findIndex(({ thickness }) => Number(thickness.value) >= of.low + 0.01) ?? -1;
  await person.post(`/jobs/${of.job.jobId}/readings`, {
    round: of.round,
    dimension: of.code,
    readings: dimension.positions.map((position) => ({
      position: position.code,
      repeat: 1,
      unit: 'mm',
      instrumentCode: feeler?.code,
      interval: {
        go: feeler?.blades[go]?.thickness.value ?? null,
        noGo: feeler?.blades[go + 1]?.thickness.value ?? null,
      },
    })),
  });
}

/** The lash as built, inside each valve's range. */
export async function measureLash(
  walk: Walk,
  job: Job,
  valves: readonly {
    readonly dimension: string;
    readonly range: { readonly low: string; readonly high: string } | null;
  }[],
): Promise<void> {
  const bench = await benchOf(walk.measurer, job);
  for (const { dimension: code, range } of valves)
    await keyBlades(walk.measurer, { job, bench, code, round: 'as built', low: Number(range?.low ?? 0) });
}

/** What a step of a procedure requires and is not there yet. */
export async function measureRequired(walk: Walk, job: Job, readings: RunStep['readings']): Promise<void> {
  const open = readings.filter(({ measured, name }) => !measured && name !== null);
  if (open.length === 0) return;
  const bench = await benchOf(walk.measurer, job);
  for (const { dimension: code, round } of open) {
    const dimension = dimensionOf(bench, code);
    const plain: Readonly<Record<string, string>> = { compression: '905', 'leak-down': '9' };
    const value = plain[code];
    if (value === undefined) {
      const low = code.startsWith('ring-gap') ? 0.34 : 0.1;
      await keyBlades(walk.measurer, { job, bench, code, round, low });
    } else await key(walk.measurer, { job, round, dimension, values: [value] });
  }
  say(`measured ${open[0]?.round}: ${open.map(({ name }) => name).join(', ')}`);
}
