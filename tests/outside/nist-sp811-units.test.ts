// Source: NIST Special Publication 811, appendix B (inch, pound, standard gravity exact by definition; everything else
// follows), with the rounded factors it prints; and mathjs 15 as an independent converter.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unit as mathUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { type UnitCode, unitOf } from '#domain/units/unit-table.ts';

const file = join(import.meta.dirname, 'data', 'metrology', 'units.json');
const data = JSON.parse(readFileSync(file, 'utf8')) as {
  factors: Record<string, { exact: string }>;
  rounded_SP811_style: Record<string, number>;
  temperature: [number, number][];
  round_trip_cases: { Nm: number; lbf_ft: number; lbf_in: number; kgf_m: number }[];
};

const pairs: readonly [key: string, from: UnitCode, to: UnitCode][] = [
  ['in_to_mm', 'in', 'mm'],
  ['thou_to_um', 'thou', 'um'],
  ['lbf_to_N', 'lbf', 'N'],
  ['kgf_to_N', 'kgf', 'N'],
  ['lbf_ft_to_Nm', 'lbf.ft', 'N.m'],
  ['lbf_in_to_Nm', 'lbf.in', 'N.m'],
  ['kgf_m_to_Nm', 'kgf.m', 'N.m'],
  ['kgf_cm_to_Nm', 'kgf.cm', 'N.m'],
  ['Nm_to_lbf_ft', 'N.m', 'lbf.ft'],
  ['Nm_to_lbf_in', 'N.m', 'lbf.in'],
  ['psi_to_kPa', 'psi', 'kPa'],
  ['bar_to_kPa', 'bar', 'kPa'],
  ['kgfcm2_to_kPa', 'kgf/cm2', 'kPa'],
  ['in3_to_cm3', 'in3', 'cm3'],
];

const factor = (from: UnitCode, to: UnitCode): { above: bigint; below: bigint } => {
  const a = unitOf(from);
  const b = unitOf(to);
  return { above: a.numerator * b.denominator, below: a.denominator * b.numerator };
};

describe('unit factors', () => {
  it.each(pairs)('%s is exact', (key, from, to) => {
    const [numerator, denominator = '1'] = (data.factors[key]?.exact ?? '').split('/');
    const { above, below } = factor(from, to);
    expect(above * BigInt(denominator)).toBe(below * BigInt(numerator ?? ''));
  });

  it.each([
    ['lbf_to_N', 'lbf', 'N'],
    ['lbf_ft_to_Nm', 'lbf.ft', 'N.m'],
    ['lbf_in_to_Nm', 'lbf.in', 'N.m'],
    ['kgf_m_to_Nm', 'kgf.m', 'N.m'],
    ['psi_to_kPa', 'psi', 'kPa'],
  ] as const)('%s agrees with the seven digits that SP 811 prints', (key, from, to) => {
    const { above, below } = factor(from, to);
    const printed = data.rounded_SP811_style[key];
    expect(Number((Number(above) / Number(below)).toPrecision(7))).toBe(printed);
  });

  it.each([
    ['in', 'mm', 'inch', 'mm', 1e-14],
    ['lbf.ft', 'N.m', 'lbf ft', 'N m', 1e-14],
    ['lbf.in', 'N.m', 'lbf in', 'N m', 1e-14],
    ['kgf.m', 'N.m', 'kgf m', 'N m', 1e-14],
    ['bar', 'kPa', 'bar', 'kPa', 1e-14],
    // mathjs holds psi to ten digits only.
    ['psi', 'kPa', 'psi', 'kPa', 1e-9],
    ['in3', 'cm3', 'cuin', 'cm3', 1e-7],
  ] as const)('%s to %s agrees with mathjs', (from, to, theirs, theirTarget, within) => {
    const { above, below } = factor(from, to);
    const ours = Number(above) / Number(below);
    const other = mathUnit(1, theirs).toNumber(theirTarget);
    expect(Math.abs(ours / other - 1)).toBeLessThan(within);
  });

  it.each(data.temperature)('%d °F is %d °C', (fahrenheit, celsius) => {
    const parsed = parseQuantity(String(fahrenheit), 'degF', 'temperature');
    expect(parsed).toMatchObject({ ok: true, rounded: false, value: 273_150 + 1000 * celsius });
    if (parsed.ok) expect(formatQuantity(parsed.value, 'degC', 0)).toBe(String(celsius));
  });

  it.each(data.round_trip_cases)('$Nm N·m in three other units', ({ Nm, lbf_ft, lbf_in, kgf_m }) => {
    const parsed = parseQuantity(String(Nm), 'N.m', 'torque');
    if (!parsed.ok) throw new Error(parsed.reason);
    expect(formatQuantity(parsed.value, 'lbf.ft', 9)).toBe(lbf_ft.toFixed(9));
    expect(formatQuantity(parsed.value, 'lbf.in', 9)).toBe(lbf_in.toFixed(9));
    expect(formatQuantity(parsed.value, 'kgf.m', 9)).toBe(kgf_m.toFixed(9));
  });

  it('1/128 in is 198 437.5 nm: it is rounded, and says so; 0.0001 in is 2 540 nm exactly', () => {
    expect(parseQuantity('1/128', 'in', 'length')).toEqual({ ok: true, value: 198_438, rounded: true, decimals: 7 });
    expect(parseQuantity('0.0001', 'in', 'length')).toEqual({ ok: true, value: 2540, rounded: false, decimals: 4 });
  });
});
