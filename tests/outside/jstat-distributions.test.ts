// Source: jstat 1.9.6, an independent implementation of the normal and Student distributions; quantiles of the normal
// distribution from the tables of any handbook; expected largest of n normal values from Harter's tables (1961)
// [from memory].

import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { fisherUpperTail } from '#domain/metrology/fisher-distribution.ts';
import { logGamma } from '#domain/metrology/gamma-and-beta.ts';
import {
  complementaryErrorFunction,
  expectedLargest,
  normalCumulative,
  normalQuantile,
} from '#domain/metrology/normal-distribution.ts';
import { studentCumulative, studentQuantile } from '#domain/metrology/student-distribution.ts';

const relative = (a: number, b: number): number => Math.abs(a / b - 1);

describe('normal distribution', () => {
  it('agrees with jstat from −5 to 5', () => {
    for (let z = -5; z <= 5; z += 0.125) expect(normalCumulative(z)).toBeCloseTo(jstat.normal.cdf(z, 0, 1), 12);
  });

  it('keeps its relative precision far out in the tail (erfc 5 = 1.537 459 794 428 035e-12, DLMF 7.23)', () => {
    expect(relative(complementaryErrorFunction(5), 1.537459794428035e-12)).toBeLessThan(1e-13);
    expect(relative(complementaryErrorFunction(2), 0.004677734981047266)).toBeLessThan(1e-13);
  });

  it.each([
    [0.9, 1.2815515655446004],
    [0.95, 1.6448536269514722],
    [0.975, 1.959963984540054],
    [0.995, 2.5758293035489004],
    [0.999, 3.090232306167813],
  ])('quantile of %d', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 12);
    expect(normalQuantile(1 - p)).toBeCloseTo(-z, 12);
  });

  it.each([
    [2, 0.56419],
    [3, 0.84628],
    [6, 1.26721],
    [10, 1.53875],
  ])('the largest of %d readings lies %d deviations out', (count, deviations) => {
    expect(expectedLargest(count)).toBeCloseTo(deviations, 5);
  });
});

describe("Student's t", () => {
  // jstat's own error reaches 2.4e-8: at t = 0, ν = 120 it gives 0.499 999 976 for a half.
  it('agrees with jstat over t and degrees of freedom', () => {
    for (const dof of [1, 2, 3, 4.5, 7, 16, 29, 30, 120]) {
      for (let t = -8; t <= 8; t += 0.5) {
        expect(studentCumulative(t, dof)).toBeCloseTo(jstat.studentt.cdf(t, dof), 7);
      }
    }
  });

  it('quantiles agree with jstat', () => {
    for (const dof of [2, 3, 5, 10, 16, 34, 200]) {
      for (const p of [0.6, 0.9, 0.95, 0.975, 0.995]) {
        expect(relative(studentQuantile(p, dof), jstat.studentt.inv(p, dof))).toBeLessThan(1e-7);
      }
    }
  });

  it('one degree of freedom is the Cauchy distribution: t = tan(π(p − ½))', () => {
    for (const p of [0.6, 0.75, 0.95, 0.975, 0.999]) {
      expect(relative(studentQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)))).toBeLessThan(1e-12);
    }
  });

  it('two degrees of freedom have a closed form: t = a·√(2/(1 − a²)), a = 2p − 1', () => {
    for (const p of [0.6, 0.75, 0.95, 0.975, 0.999]) {
      const a = 2 * p - 1;
      expect(relative(studentQuantile(p, 2), a * Math.sqrt(2 / (1 - a * a)))).toBeLessThan(1e-12);
    }
  });

  it('log Γ of whole and half numbers', () => {
    expect(logGamma(11)).toBeCloseTo(Math.log(3628800), 12);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 13);
  });
});

describe("Fisher's F", () => {
  it('agrees with jstat over F and both degrees of freedom', () => {
    for (const above of [1, 2, 4, 9, 18]) {
      for (const below of [2, 5, 18, 60, 120]) {
        for (const f of [0.1, 0.5, 1, 2, 4, 8]) {
          expect(fisherUpperTail(f, { above, below })).toBeCloseTo(1 - jstat.centralF.cdf(f, above, below), 7);
        }
      }
    }
  });

  it('of one degree above is the square of Student’s t', () => {
    for (const t of [0.3, 1, 2.5, 6]) {
      const twoSided = 2 * studentCumulative(-t, 7);
      expect(relative(fisherUpperTail(t * t, { above: 1, below: 7 }), twoSided)).toBeLessThan(1e-12);
    }
  });
});
