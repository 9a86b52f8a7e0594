import { describe, expect, test } from 'vitest';
import { demoFamilies, familyCodes } from '../../../prisma/demo/families/families.ts';
import { type ProcedureData, pulledThrough, type StepData } from '../../../prisma/demo/procedures/procedure.ts';
import { instrumentFor } from '../../../prisma/demo/specimen.ts';

const procedureOf = (family: (typeof familyCodes)[number], kind: string): ProcedureData => {
  const found = demoFamilies[family].procedures.find(({ code }) => code === `${family}-${kind}`);
  if (found === undefined) throw new Error(`${family} has no procedure ${kind}`);
  return found;
};
function counted({ steps }: ProcedureData): ReadonlyMap<string, number> {
  const sums = new Map<string, number>();
  for (const { name, expected } of steps.flatMap(({ pieces }) => pieces)) {
    sums.set(name, (sums.get(name) ?? 0) + expected);
  }
  return sums;
}
const stepsNaming = ({ steps }: ProcedureData, name: RegExp): readonly StepData[] =>
  steps.filter(({ pieces }) => pieces.some((piece) => name.test(piece.name)));
const hazardsOf = (steps: readonly StepData[]): readonly string[][] =>
  steps.map(({ cautions }) => cautions.map(({ hazard }) => hazard));

/** What turns on a thread and is pulled to a figure; a bolt’s washer or seal is not. */
const threaded = /(bolt|nut|screw)$/i;

const taken = [
  ['CASE', 'BOTTOM'],
  ['STRIP', 'BUILD'],
] as const;

describe.each(familyCodes)('what comes off %s goes back on', (family) => {
  test.each(taken)('every piece of %s, as many, is named by a step of %s', (strip, build) => {
    expect(counted(procedureOf(family, build))).toEqual(counted(procedureOf(family, strip)));
  });

  test('what is bored, worn or matched together says so in the assembly too, and opens nothing there', () => {
    for (const [strip, build] of taken) {
      const off = procedureOf(family, strip).steps.flatMap(({ pieces }) => pieces);
      const on = procedureOf(family, build).steps.flatMap(({ pieces }) => pieces);
      for (const piece of off) expect(on).toContainEqual({ ...piece, layer: null });
    }
  });
});

describe.each(familyCodes)('the bottom end of %s', (family) => {
  const strip = procedureOf(family, 'CASE');
  const build = procedureOf(family, 'BOTTOM');
  const sheet = demoFamilies[family].figures.sheets.at(-1);

  test('each thread undone or pulled stands at a step that names its set, one set a step, as many as the set has', () => {
    const ofSet = new Map(sheet?.fasteners.map(({ code, positions }) => [code, positions.length]));
    for (const step of [...strip.steps, ...build.steps]) {
      const threads = step.pieces.filter(({ name }) => threaded.test(name));
      const count = threads.reduce((sum, { expected }) => sum + expected, 0);
      expect([step.title, step.fastenerSet === null ? 0 : ofSet.get(step.fastenerSet)]).toEqual([step.title, count]);
    }
  });

  test('the assembly pulls every set that the strip loosens', () => {
    const sets = ({ steps }: ProcedureData) =>
      [...new Set(steps.flatMap(({ fastenerSet }) => fastenerSet ?? []))].sort();
    expect(sets(build)).toEqual(sets(strip));
  });

  test.each([
    ['springs under load', /^(clutch spring|kick spring|stopper arm spring)$/i],
    ['lifting', /^(crank|case half|balancer shaft)$/i],
    ['hot parts', /^main bearing$/i],
    ['other', /^rotor$/i],
  ] as const)('"%s" is said at each step that handles it', (hazard, name) => {
    const steps = [...stepsNaming(strip, name), ...stepsNaming(build, name)];
    expect(steps.length).toBeGreaterThanOrEqual(2);
    for (const told of hazardsOf(steps)) expect(told).toContain(hazard);
  });

  test('a second person looks before the halves close, and where a mistake is not seen afterwards', () => {
    const stops = build.steps.filter(({ secondPerson }) => secondPerson).map(({ title }) => title);
    expect(stops).toEqual(
      expect.arrayContaining([
        'Main bearings in',
        'Looked over before it closes',
        'Alternator on',
        'Clutch basket and hub on',
      ]),
    );
    const order = build.steps.map(({ title }) => title);
    expect(order.indexOf('Looked over before it closes') + 1).toBe(order.indexOf('Case halves together'));
  });

  test('what hides another is done after it', () => {
    const order = build.steps.map(({ title }) => title);
    const follows = (...titles: readonly string[]) => {
      const places = titles.map((title) => order.indexOf(title));
      expect(places).not.toContain(-1);
      expect(places).toEqual(places.toSorted((a, b) => a - b));
    };
    follows('Main bearings in', 'Seals in', 'Crank in', 'Gearbox in', 'Case halves together', 'Turned by hand, closed');
    follows('Case halves together', 'Shift linkage on', 'Clutch basket and hub on', 'Clutch cover on');
    follows('Case halves together', 'Alternator on', 'Alternator cover on');
  });

  test('the primary nut is turned while the basket still gives the gear something to be held against', () => {
    const off = strip.steps.map(({ title }) => title);
    expect(off.indexOf('Primary nut off')).toBeLessThan(off.indexOf('Clutch hub and basket off'));
    expect(off.indexOf('Primary gear off')).toBeGreaterThan(off.indexOf('Clutch hub and basket off'));
    const on = build.steps.map(({ title }) => title);
    expect(on.indexOf('Primary gear on')).toBeLessThan(on.indexOf('Clutch basket and hub on'));
    expect(on.indexOf('Primary nut pulled')).toBeGreaterThan(on.indexOf('Clutch basket and hub on'));
    for (const step of [...stepsNaming(strip, /^primary gear nut$/i), ...stepsNaming(build, /^primary gear nut$/i)])
      expect(hazardsOf([step]).flat()).toContain('moving parts');
  });

  test('no rag lies between the halves: it goes round the rod once nothing is turned any more', () => {
    const withRag = build.steps.filter(({ putIn }) => putIn.length > 0).map(({ title }) => title);
    expect(withRag).toEqual(['Covered and counted']);
    expect(build.steps.at(-1)?.title).toBe('Covered and counted');
  });

  test('the crank is measured as it came out and as it goes in', () => {
    const asked = (data: ProcedureData, round: string) =>
      data.steps
        .flatMap(({ readings }) => readings.filter((one) => one.round === round))
        .map(({ dimension }) => dimension);
    expect(asked(build, 'as built').toSorted()).toEqual(asked(strip, 'as received').toSorted());
    expect(asked(build, 'as built')).toEqual(expect.arrayContaining(['rod-side', 'crank-end-float']));
  });

  test('what is found decides: each choice that is not the sound one has a step of its own', () => {
    for (const { steps } of [strip, build]) {
      const asked = steps.flatMap(({ asks }) => (asks === null ? [] : [asks]));
      expect(asked.length).toBeGreaterThanOrEqual(2);
      for (const { code, choices } of asked)
        for (const choice of choices.slice(1))
          expect([
            choice.words,
            steps.some(({ onlyIf }) =>
              onlyIf.some((one) => 'question' in one && one.question === code && one.oneOf.includes(choice.code)),
            ),
          ]).toEqual([choice.words, true]);
    }
  });
});

describe.each(familyCodes)('the top end of %s', (family) => {
  /** A figure would be wrong: it is pulled by feel, or set and held by its nut, and the assembly says so. */
  const byFeel: Readonly<Record<string, RegExp>> = {
    'Earth wire screw': /screw has no figure/,
    'Timing plug': /Timing plugs .* by feel/,
    'Coolant hose clamp': /clamp .*by feel/,
    'Intake boot clamp': /clamps,? .*by feel/,
    'Adjusting screw': /lash is set/,
  };
  /** What is pulled to a figure, by whatever name. */
  const pulled = /(bolt|nut|screw|^drain plug|^spark plug)$/i;
  const strip = procedureOf(family, 'STRIP');
  const build = procedureOf(family, 'BUILD');
  const sheet = demoFamilies[family].figures.sheets.at(-1);
  const ofSet = new Map(sheet?.fasteners.map(({ code, positions }) => [code, positions.length]));
  const threadsOf = ({ pieces }: StepData): number =>
    pieces
      .filter(({ name }) => pulled.test(name) && byFeel[name] === undefined)
      .reduce((sum, { expected }) => sum + expected, 0);

  test('each thread that is pulled stands at a step that names its set, as many as the set has', () => {
    for (const step of [...strip.steps, ...build.steps]) {
      // The adjusters go in with their rockers; their nuts are pulled with the lash.
      if (['Rockers in', 'Lash'].includes(step.title)) continue;
      const set = step.fastenerSet === null ? 0 : ofSet.get(step.fastenerSet);
      expect([step.title, set]).toEqual([step.title, threadsOf(step)]);
    }
    const rockers = build.steps.find(({ title }) => title === 'Rockers in');
    const lash = build.steps.find(({ title }) => title === 'Lash');
    if (rockers !== undefined) expect(ofSet.get(lash?.fastenerSet ?? '')).toBe(threadsOf(rockers));
  });

  test('the assembly pulls every set that the strip loosens', () => {
    const sets = ({ steps }: ProcedureData) =>
      [...new Set(steps.flatMap(({ fastenerSet }) => fastenerSet ?? []))].sort();
    expect(sets(build)).toEqual(sets(strip));
  });

  test('what is pulled without a figure says why, where it goes back on', () => {
    for (const { words, pieces } of build.steps)
      for (const { name } of pieces) {
        const said = byFeel[name];
        if (said !== undefined) expect([name, words]).toEqual([name, expect.stringMatching(said)]);
      }
  });

  test('whoever turns the spark plug is told that its thread is aluminium', () => {
    const turned = demoFamilies[family].procedures
      .flatMap(({ steps }) => steps)
      .filter(({ fastenerSet }) => fastenerSet === 'spark-plug');
    expect(turned.length).toBeGreaterThanOrEqual(3);
    for (const { cautions } of turned)
      expect(cautions).toContainEqual({ hazard: 'damage', words: expect.stringContaining('aluminium') });
  });

  test('nothing is turned while a rag lies in the chain tunnel, or cranked before its battery is on', () => {
    const turned = build.steps.find(({ title }) => title === 'Tensioner in, turned twice');
    if (turned !== undefined) expect(turned.words).toMatch(/Rag out of the chain tunnel.*before anything is turned/);
    const order = procedureOf(family, 'PROVE').steps.map(({ title }) => title);
    const places = ['Battery on', 'Tank on', 'First start'].map((title) => order.indexOf(title));
    expect(places).not.toContain(-1);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });
});

describe.each(familyCodes)('whoever turns the engine of %s', (family) => {
  /** Wherever the words of a step or of its cautions have the crank turned: by hand, by kick, by starter or up to a mark. */
  const tellsToTurn =
    /\bturn the (crank|engine)\b|\b(crank|rod)( and shafts)? turned\b|\bcrank( and balancer)? at (its|their) marks?\b|\btwo (full )?turns\b|\b(kicked|cranked)\b|\bturned by hand\b|\bdead centre\b|\bdrawn in by its thread\b/i;
  const steps = demoFamilies[family].procedures.flatMap(({ code, steps: of }) => of.map((step) => ({ code, ...step })));
  const turned = steps.filter(({ title, words, cautions }) =>
    [title, words, ...cautions.map(({ words: said }) => said)].some((text) => tellsToTurn.test(text)),
  );

  test('is told of it at that step, whatever the procedure: the same words, which lock it while a piece may be inside', () => {
    const untold = turned.filter(
      ({ cautions }) =>
        !cautions.some(({ hazard, words }) => hazard === pulledThrough.hazard && words === pulledThrough.words),
    );
    expect(untold.map(({ code, title }) => `${code}: ${title}`)).toEqual([]);
  });

  test('is found by what the steps say: strip, bottom end and assembly each turn it', () => {
    for (const kind of ['STRIP', 'BOTTOM', 'BUILD'])
      expect([kind, turned.some(({ code }) => code === `${family}-${kind}`)]).toEqual([kind, true]);
    const told = steps.filter(({ cautions }) => cautions.some(({ hazard }) => hazard === pulledThrough.hazard));
    expect(turned.length).toBeGreaterThanOrEqual(told.length / 2);
  });
});

describe.each(familyCodes)('a piece of %s of which several are counted', (family) => {
  test.each(demoFamilies[family].procedures.map(({ code, steps }) => [code, steps] as const))(
    '%s: says why it matters how many there are, or which is which',
    (_code, steps) => {
      const pieces = steps.flatMap(({ pieces }) => pieces);
      expect(pieces.filter(({ expected, why }) => expected > 1 && why === '').map(({ name }) => name)).toEqual([]);
    },
  );
});

describe('a four-stroke’s balancer', () => {
  test('goes in between the halves and is timed by its mark, read by a second person and photographed', () => {
    for (const family of ['H355', 'H388', 'T615'] as const) {
      const { steps } = procedureOf(family, 'BOTTOM');
      const timed = steps.find(({ title }) => title === 'Balancer on its mark');
      expect(timed).toMatchObject({
        fastenerSet: 'balancer-nut',
        secondPerson: true,
        photo: expect.stringMatching(/mark/),
      });
      const order = steps.map(({ title }) => title);
      expect(order.indexOf('Balancer in')).toBeLessThan(order.indexOf('Case halves together'));
      expect(order.indexOf('Balancer on its mark')).toBeGreaterThan(order.indexOf('Case halves together'));
    }
  });
});

describe('a two-stroke’s crankcase', () => {
  test('is tried for leaks before anything is built on it', () => {
    const { steps } = procedureOf('O125', 'BOTTOM');
    const order = steps.map(({ title }) => title);
    expect(order.indexOf('Crank seals tried')).toBeGreaterThan(order.indexOf('Case halves together'));
    expect(order.indexOf('Crank seals tried')).toBeLessThan(order.indexOf('Alternator on'));
  });
});

describe.each(familyCodes)('what a procedure of %s asks to be measured', (family) => {
  const { figures, procedures } = demoFamilies[family];

  test.each(procedures.map(({ code, steps }) => [code, steps] as const))(
    '%s: each required reading has its dimension, with limits to judge it by, on every sheet of the family',
    (_code, steps) => {
      const asked = steps.flatMap(({ title, readings }) => readings.map(({ dimension }) => ({ title, dimension })));
      for (const { dimensions } of figures.sheets) {
        const judged = new Set(
          dimensions.flatMap(({ code, limits }) => (Object.keys(limits).length > 0 ? [code] : [])),
        );
        expect(asked.filter(({ dimension }) => !judged.has(dimension))).toEqual([]);
      }
    },
  );

  test('can be measured with a gauge the shop has', () => {
    const asked = new Set(
      procedures.flatMap(({ steps }) => steps.flatMap(({ readings }) => readings.map(({ dimension }) => dimension))),
    );
    const gauged = figures.sheets.flatMap(({ dimensions }) =>
      dimensions.filter(({ code, instrument }) => asked.has(code) && instrument !== 'by hand'),
    );
    expect(gauged.length).toBeGreaterThan(5);
    for (const dimension of gauged) expect(instrumentFor(dimension).due).toBeGreaterThan(0);
  });
});
