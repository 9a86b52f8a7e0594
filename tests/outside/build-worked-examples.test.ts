// Sources, each named at its case: worked examples of public workshop texts and textbook exercises, as seen; the exact
// US and imperial measures of NIST SP 811 app. B; mathjs 15 as an independent converter of units. What was only
// recalled says "from memory". Ring gap factors are common practice, no source.
import { unit as mathUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type CalculationKind, calculate } from '#domain/build/calculations/kinds.ts';
import type { Given } from '#domain/build/calculations/reading.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';

const q = (value: string, unit: string) => ({ value, unit });
const mm = (value: string) => q(value, 'mm');
const inches = (value: string) => q(value, 'in');
const deg = (value: string) => q(value, 'deg');

/** The results as plain numbers. */
function figures(kind: CalculationKind, given: Given): Readonly<Record<string, number>> {
  const worked = calculate(kind, given);
  if (!worked.ok) throw new Error(worked.faults.map(({ field, words }) => `${field} ${words}`).join(' '));
  return Object.fromEntries(
    Object.entries(worked.figures).map(([code, found]) => [code, found === null ? Number.NaN : Number(found.value)]),
  );
}

describe('displacement', () => {
  it('of a six of 3.5 × 3 in is 173.2 cubic inches (a workshop quiz on engine capacity)', () => {
    const found = figures('displacement', { bore: inches('3.5'), stroke: inches('3'), cylinders: 6 });
    expect(mathUnit(found.displacement ?? 0, 'cm^3').toNumber('in^3')).toBeCloseTo(173.2, 1);
  });

  it('of one cylinder of 7.7 × 8.04 cm is 374.394 cm³ (a restorer’s page on measuring a head)', () => {
    const found = figures('displacement', { bore: q('7.7', 'cm'), stroke: q('8.04', 'cm') });
    // the page reckons with π = 3.1416
    expect(found.perCylinder).toBeCloseTo(374.394, 1);
  });
});

describe('compression ratio', () => {
  it('of 11 on 300 cm³ leaves a chamber of 30 cm³ (textbook exercise)', () => {
    const given = { bore: mm('70'), stroke: mm('77.953'), chamber: q('40', 'cm3'), wantedRatio: 11 };
    const found = figures('compression-ratio', given);
    expect(found.sweptVolume).toBeCloseTo(300, 1);
    expect(found.chamberForWanted).toBeCloseTo(30, 1);
  });

  it('of 9.5 on a chamber of 80 cm³ belongs to a stroke volume of 680 cm³ (textbook exercise)', () => {
    const found = figures('compression-ratio', { bore: mm('100'), stroke: mm('86.58'), chamber: q('80', 'cm3') });
    expect(found.sweptVolume).toBeCloseTo(680, 1);
    expect(found.ratio).toBeCloseTo(9.5, 2);
  });

  it('takes gasket and deck as discs, dome off and dish on (geometry, from memory of any head card)', () => {
    const given = { bore: inches('4.030'), stroke: inches('3.480'), chamber: q('64', 'cm3') };
    const found = figures('compression-ratio', {
      ...given,
      gasketThickness: inches('0.040'),
      gasketBore: inches('4.100'),
      deck: inches('0.020'),
      crown: q('5', 'cm3'),
    });
    const disc = (bore: number, height: number) =>
      mathUnit((Math.PI / 4) * bore ** 2 * height, 'in^3').toNumber('cm^3');
    const left = 64 + 5 + disc(4.1, 0.04) + disc(4.03, 0.02);
    // held in whole mm³, written to 0.01 cm³
    expect(Math.abs((found.clearanceVolume ?? 0) - left)).toBeLessThan(0.0061);
    expect(found.ratio).toBeCloseTo((disc(4.03, 3.48) + left) / left, 2);
    expect(found.squish).toBeCloseTo(0.06 * 25.4, 3);
  });
});

describe('cam timing', () => {
  it('of 20-60 and 60-20 is 260° and 260° (a workshop text on valve timing diagrams)', () => {
    const found = figures('cam-timing', {
      intakeOpensBeforeTop: deg('20'),
      intakeClosesAfterBottom: deg('60'),
      exhaustOpensBeforeBottom: deg('60'),
      exhaustClosesAfterTop: deg('20'),
    });
    expect([found.intakeDuration, found.exhaustDuration]).toEqual([260, 260]);
  });

  it('of 25-55, the same cam 5° advanced, keeps its duration and moves its centre 5° (same text)', () => {
    const at = (opens: string, closes: string) =>
      figures('cam-timing', {
        intakeOpensBeforeTop: deg(opens),
        intakeClosesAfterBottom: deg(closes),
        exhaustOpensBeforeBottom: deg('60'),
        exhaustClosesAfterTop: deg('20'),
      });
    expect(at('25', '55').intakeDuration).toBe(260);
    expect((at('20', '60').intakeCentre ?? 0) - (at('25', '55').intakeCentre ?? 0)).toBe(5);
  });

  it('of 6-42 is 228° centred at 108°, with 12° of exhaust closing an overlap of 18° (a forum’s worked cam card)', () => {
    const found = figures('cam-timing', {
      intakeOpensBeforeTop: deg('6'),
      intakeClosesAfterBottom: deg('42'),
      exhaustOpensBeforeBottom: deg('48'),
      exhaustClosesAfterTop: deg('12'),
    });
    expect([found.intakeDuration, found.intakeCentre, found.overlap]).toEqual([228, 108, 18]);
  });

  it('of 264° lobes with 45° of overlap is separated by 109.5° (a service manual’s figures as a forum works them)', () => {
    const found = figures('cam-points', {
      intakeDuration: deg('264'),
      exhaustDuration: deg('264'),
      intakeCentre: deg('109.5'),
      exhaustCentre: deg('109.5'),
    });
    expect([found.overlap, found.separation]).toEqual([45, 109.5]);
  });
});

describe('piston speed', () => {
  it('of a 125 mm crank with a 500 mm rod, 600 a minute, is 6.45 m/s at 45° by a drawn diagram (textbook exercise)', () => {
    const given = { stroke: mm('250'), rodLength: mm('500'), revolutionsPerMinute: 600, afterTop: deg('45') };
    const found = figures('piston-motion', given);
    // a velocity diagram drawn to scale: two parts in a hundred
    expect(Math.abs((found.speed ?? 0) - 6.45) / 6.45).toBeLessThan(0.02);
  });
});

describe('ring gap', () => {
  it.each([
    ['3', 0.012],
    ['4', 0.016],
  ])('of a %s in bore is at least %d in by 0.004 (workshop quiz; common practice)', (bore, gap) => {
    expect((figures('ring-gap', { bore: inches(bore) }).gapMost ?? 0) / 25.4).toBeCloseTo(gap, 4);
  });

  it('of 4 in by 0.0035 is 0.014 in, the least that ring makers name (common practice)', () => {
    expect((figures('ring-gap', { bore: inches('4') }).gapLeast ?? 0) / 25.4).toBeCloseTo(0.014, 4);
  });

  it.each([
    ['37', 0.148],
    ['38', 0.152],
    ['40', 0.16],
  ])('of a %s mm bore is %d mm (a moped club’s table for 0.004)', (bore, gap) => {
    expect(figures('ring-gap', { bore: mm(bore) }).gapMost).toBeCloseTo(gap, 3);
  });
});

describe('mixture', () => {
  it.each([
    [50, '1', 2.56],
    [40, '1', 3.2],
    [32, '1', 4],
    [50, '12', 30.72],
    [50, '5', 12.8],
  ])(
    'of %d:1 in %s US gallons takes %d US fluid ounces of oil (a household reference page)',
    (ratio, gallons, ounces) => {
      const found = figures('mixture', { ratio, fuel: q(gallons, 'gal-us') });
      expect(mathUnit(found.oil ?? 0, 'mL').toNumber('fluidounce')).toBeCloseTo(ounces, 2);
    },
  );

  it('goes back from oil to fuel and from both to the ratio', () => {
    expect(figures('mixture', { ratio: 40, oil: q('3.2', 'floz-us') }).fuel).toBeCloseTo(3.785, 3);
    expect(figures('mixture', { fuel: q('1', 'gal-imp'), oil: q('5', 'floz-imp') }).ratio).toBe(32);
  });
});

describe('coolant', () => {
  it('of 3.6 L at 70 % comes to 50 % by 1.029 L of water (an algebra exercise, worked)', () => {
    const found = figures('coolant', { holds: q('3.6', 'L'), wantedStrength: 50, foundStrength: 70 });
    expect([found.drain, found.water, found.concentrate]).toEqual([1029, 1029, 0]);
  });

  it('keeps the balance of what is let out and put in', () => {
    const found = figures('coolant', {
      holds: q('1.2', 'L'),
      wantedStrength: 50,
      foundStrength: 30,
      pouredStrength: 95,
    });
    const [out, put] = [found.drain ?? 0, found.concentrate ?? 0];
    expect(((1200 - out) * 0.3 + put * 0.95) / 1200).toBeCloseTo(0.5, 3);
  });
});

describe('oil by level and by weight', () => {
  it('is the ring between tube and rod (geometry, against mathjs)', () => {
    const found = figures('oil-level', {
      tubeBore: mm('43'),
      rodDiameter: mm('12'),
      levelFound: mm('125'),
      levelWanted: mm('110'),
    });
    const expected = mathUnit((Math.PI / 4) * (43 ** 2 - 12 ** 2) * 15, 'mm^3').toNumber('mL');
    expect(found.add).toBeCloseTo(expected, 1);
  });

  it('of 870 g at 0.87 g/mL is a litre', () => {
    expect(figures('fill-by-weight', { density: 0.87, mass: 870 }).volume).toBe(1000);
  });
});

describe('units of volume', () => {
  it.each([
    ['gal-us', 'gallon'],
    ['floz-us', 'fluidounce'],
    ['qt-us', 'quart'],
    ['in3', 'in^3'],
    ['cm3', 'cm^3'],
    ['mL', 'mL'],
    ['L', 'L'],
  ])('%s agrees with mathjs', (ours, theirs) => {
    const parsed = parseQuantity('1000', ours, 'volume');
    const expected = mathUnit(1000, theirs).toNumber('mm^3');
    // mathjs holds the gallon and its parts to ten digits at most
    expect(parsed.ok && Math.abs(parsed.value / expected - 1)).toBeLessThan(2e-4);
  });

  it('imperial measures are exact by law: 4.546 09 L, 160 fluid ounces, 8 pints', () => {
    const one = (unit: string, count: string) => {
      const parsed = parseQuantity(count, unit, 'volume');
      return parsed.ok ? parsed.value : Number.NaN;
    };
    expect([one('gal-imp', '1'), one('floz-imp', '160'), one('pt-imp', '8')]).toEqual([
      4_546_090, 4_546_090, 4_546_090,
    ]);
  });
});
