// Source: JCGM 101:2008, Supplement 1 to the GUM, clause 9: the additive model, the comparison loss near zero and the
// gauge block [figures from memory; the first two also follow from closed forms, given beside them]. The generator's
// first words for the state 1, 2, 3, 4 follow from its definition by hand (Blackman & Vigna 2018).
import { describe, expect, it } from 'vitest';
import { propagate } from '#domain/metrology/monte-carlo.ts';
import { type RandomSource, randomSource, xoshiro } from '#domain/metrology/random-source.ts';
import { studentQuantile } from '#domain/metrology/student-distribution.ts';

const trials = 400_000;
const run = (draw: (random: RandomSource) => number, level = 0.95) =>
  propagate(draw, { trials, seed: 20_081_101, level });

describe('the generator', () => {
  it('xoshiro128** from state 1, 2, 3, 4: rotl(2 · 5, 7) · 9 = 11 520 comes first, then nothing, then 5 927 040', () => {
    const word = xoshiro([1, 2, 3, 4]);
    expect([word(), word(), word()]).toEqual([11_520, 0, 5_927_040]);
  });

  it('the same seed draws the same, another seed otherwise', () => {
    const first = (seed: number) => Array.from({ length: 5 }, randomSource(seed).uniform);
    expect(first(7)).toEqual(first(7));
    expect(first(7)).not.toEqual(first(8));
    expect(() => randomSource(-1)).toThrow(RangeError);
  });

  it('normal, uniform and few-readings draws have the moments of their distributions', () => {
    const normal = run((random) => random.normal());
    expect(normal.mean).toBeCloseTo(0, 2);
    expect(normal.sd).toBeCloseTo(1, 2);
    const uniform = run((random) => random.between(-1, 1));
    expect(uniform.sd).toBeCloseTo(1 / Math.sqrt(3), 2);
    // Student's t of ν = 5: standard deviation √(5/3), 95 % within ±t₀.₉₇₅.
    const few = run((random) => random.normal() * random.studentFactor(5));
    expect(few.sd).toBeCloseTo(Math.sqrt(5 / 3), 1);
    expect(few.symmetric.high).toBeCloseTo(studentQuantile(0.975, 5), 1);
  });
});

describe('9.2 additive model of four inputs', () => {
  it('9.2.2 four standard normals: u = 2.00, 95 % within ±3.92', () => {
    const { mean, sd, symmetric, shortest } = run(
      (random) => random.normal() + random.normal() + random.normal() + random.normal(),
    );
    expect(mean).toBeCloseTo(0, 1);
    expect(sd).toBeCloseTo(2, 1);
    expect(Math.abs(symmetric.high - 3.92)).toBeLessThan(0.03);
    expect(Math.abs(symmetric.low + 3.92)).toBeLessThan(0.03);
    expect(shortest.high - shortest.low).toBeLessThanOrEqual(symmetric.high - symmetric.low);
  });

  it('9.2.3 four rectangular ones of unit deviation: u = 2.00, 95 % within ±3.88', () => {
    const half = Math.sqrt(3);
    const one = (random: RandomSource) => random.between(-half, half);
    const { sd, symmetric } = run((random) => one(random) + one(random) + one(random) + one(random));
    expect(Math.abs(sd - 2)).toBeLessThan(0.01);
    expect(Math.abs(symmetric.high - 3.88)).toBeLessThan(0.03);
    expect(Math.abs(symmetric.low + 3.88)).toBeLessThan(0.03);
  });

  it('9.2.4 one of them ten times as wide: u = 10.1, 95 % within ±17.0, where the normal assumption says ±19.9', () => {
    const half = Math.sqrt(3);
    const one = (random: RandomSource, times: number) => random.between(-half * times, half * times);
    const { sd, symmetric } = run((random) => one(random, 1) + one(random, 1) + one(random, 1) + one(random, 10));
    expect(Math.abs(sd - 10.15)).toBeLessThan(0.05);
    expect(Math.abs(symmetric.high - 17)).toBeLessThan(0.1);
    expect(1.96 * sd).toBeGreaterThan(19.7);
  });
});

describe('9.4 comparison loss, Y = X₁² + X₂², u = 0.005 each, no correlation; in millionths', () => {
  // Mean x₁² + 2u², variance 4x₁²u² + 4u⁴.
  it.each([
    [0, 50, 50, 0, 150],
    [0.01, 150, 112, 0, 367],
    [0.05, 2551, 502, 1590, 3543],
  ])('x₁ = %d: y = %d, u = %d, shortest 95 % from %d to %d', (x1, y, u, low, high) => {
    const found = run((random) => (x1 + 0.005 * random.normal()) ** 2 + (0.005 * random.normal()) ** 2);
    expect(Math.abs(found.mean * 1e6 - y)).toBeLessThan(2.5);
    expect(Math.abs(found.sd * 1e6 - u)).toBeLessThan(2);
    expect(Math.abs(found.shortest.low * 1e6 - low)).toBeLessThan(15);
    expect(Math.abs(found.shortest.high * 1e6 - high)).toBeLessThan(15);
    expect(found.mean * 1e6).toBeCloseTo((x1 ** 2 + 2 * 0.005 ** 2) * 1e6, -1);
  });
});

describe('9.5 gauge block: the end gauge of GUM H.1 with the distributions of its inputs', () => {
  it('deviation 838 nm, u = 36 nm, shortest 99 % from 745 to 932 nm', () => {
    const t = (random: RandomSource, dof: number) => random.normal() * random.studentFactor(dof);
    // A rectangle whose half-width is itself known to ±d.
    const uncertainRectangle = (random: RandomSource, half: number, d: number) => {
      const reach = random.between(half - d, half + d);
      return random.between(-reach, reach);
    };
    const found = run((random) => {
      const standard = 50_000_623 + 25 * t(random, 18);
      const difference = 215 + 6 * t(random, 24) + 4 * t(random, 5) + 7 * t(random, 8);
      const alpha = random.between(9.5e-6, 13.5e-6);
      const bed = -0.1 + 0.2 * random.normal() + 0.5 * Math.sin(2 * Math.PI * random.uniform());
      const alphaApart = uncertainRectangle(random, 1e-6, 0.1e-6);
      const apart = uncertainRectangle(random, 0.05, 0.025);
      const length = (standard * (1 + alpha * (bed - apart)) + difference) / (1 + (alpha + alphaApart) * bed);
      return length - 50_000_000;
    }, 0.99);
    expect(Math.abs(found.mean - 838)).toBeLessThan(1);
    expect(Math.abs(found.sd - 36)).toBeLessThan(0.6);
    expect(Math.abs(found.shortest.low - 745)).toBeLessThan(3);
    expect(Math.abs(found.shortest.high - 932)).toBeLessThan(3);
  });
});
