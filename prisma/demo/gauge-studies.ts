import { isoOf } from './clock.ts';
import type { PersonKey } from './people.ts';
import { chance } from './random.ts';
import { known, type World } from './world.ts';

interface DemoStudy {
  readonly instrument: string;
  readonly name: string;
  /** Working day before the anchor on which it was read. */
  readonly day: number;
  /** Sizes of the parts, mm. */
  readonly sizes: readonly number[];
  readonly people: readonly PersonKey[];
  readonly trials: number;
  /** mm, of one reading by one person; and how far people stand apart. */
  readonly scatter: number;
  readonly apart: number;
  readonly tolerance: number | null;
  /** How many readings were taken; all when left out. */
  readonly taken?: number;
  readonly closed: boolean;
}

const spread = (from: number, steps: readonly number[]): readonly number[] => steps.map((step) => from + step);

const studies: readonly DemoStudy[] = [
  {
    instrument: 'BG-2',
    name: 'Bore gauge on ten cylinders',
    day: -46,
    sizes: spread(88, [0.008, 0.021, 0.035, 0.012, 0.047, 0.029, 0.004, 0.052, 0.018, 0.041]),
    people: ['nadia', 'oskar', 'bea'],
    trials: 3,
    scatter: 0.0012,
    apart: 0.0008,
    tolerance: 0.05,
    closed: true,
  },
  {
    instrument: 'CA-1',
    name: 'Caliper on ten valve springs',
    day: -3,
    sizes: spread(38.5, [0.06, -0.11, 0.02, 0.14, -0.04, 0.09, -0.15, 0.03, -0.08, 0.11]),
    people: ['nadia', 'oskar'],
    trials: 3,
    scatter: 0.011,
    apart: 0.006,
    tolerance: 0.6,
    closed: false,
  },
  {
    instrument: 'MI-4',
    name: 'Micrometer on eight pistons',
    day: 0,
    sizes: spread(87.95, [0.004, 0.012, -0.006, 0.009, 0.001, 0.015, -0.002, 0.007]),
    people: ['oskar', 'tomasz'],
    trials: 2,
    scatter: 0.0008,
    apart: 0.0004,
    tolerance: 0.03,
    taken: 11,
    closed: false,
  },
];

/** Studies of the shop's own gauges: one done, one read through and waiting for the lead, one half read. */
export function addGaugeStudies(world: World): void {
  const { clock, rows, id, people } = world;
  for (const study of studies) {
    const { data, id: instrumentId } = known(world.instruments, study.instrument);
    const by = chance(`gauge study ${study.name}`);
    const start = clock.at(study.day, '08:05');
    const nm = (figure: number) => Math.round(figure * 1e6);
    const studyId = id('gauge_study', start);
    const taken = study.taken ?? study.sizes.length * study.people.length * study.trials;
    const end = start + (taken + 4) * 60_000;
    rows.add('gauge_study', {
      id: studyId,
      instrument_id: instrumentId,
      name: study.name,
      parts: study.sizes.length,
      trials: study.trials,
      tolerance: study.tolerance === null ? null : nm(study.tolerance),
      started_by_id: known(people, study.people[0] ?? 'nadia'),
      started_at: isoOf(start),
      closed_by_id: study.closed ? known(people, 'maren') : null,
      closed_at: study.closed ? isoOf(end) : null,
    });
    let at = start;
    study.people.forEach((person, index) => {
      const readerId = id('gauge_study_person', start);
      rows.add('gauge_study_person', {
        id: readerId,
        study_id: studyId,
        person_id: known(people, person),
        ordinal: index + 1,
      });
      const habit = by.scatter(study.apart);
      for (let trial = 1; trial <= study.trials; trial += 1) {
        study.sizes.forEach((size, part) => {
          at += 60_000;
          if ((at - start) / 60_000 > taken) return;
          const shown = Math.round((size + habit + by.scatter(study.scatter)) / data.resolution) * data.resolution;
          rows.add('gauge_study_reading', {
            id: id('gauge_study_reading', at),
            study_person_id: readerId,
            part: part + 1,
            trial,
            value: nm(shown),
            keyed_text: shown.toFixed(data.decimals),
            keyed_unit: data.unit,
            replaces_id: null,
            reason: '',
            keyed_by_id: known(people, person),
            keyed_at: isoOf(at),
          });
        });
      }
    });
    world.events.push({
      at: start,
      kind: 'gauge-study.started',
      actor: study.people[0] ?? 'nadia',
      terminal: null,
      engine: null,
      jobId: null,
      data: { instrument: study.instrument, name: study.name, parts: study.sizes.length, trials: study.trials },
    });
  }
}
