// Source: ISO 898-1, stress areas and proof stress as reprinted in public tables (seen), proof loads from memory (marked
// in the data); torque examples computed from T = K·d·F with handbook nut factors. See data/fasteners-bolts.json.
import { describe, expect, it } from 'vitest';
import { parsePropertyClass, proofLoad, proofStress, torqueAtShare } from '#domain/fasteners/proof-load.ts';
import { parseThread, stressArea } from '#domain/fasteners/thread.ts';
import { nanometres } from '#domain/units/quantity.ts';
import bolts from './data/fasteners-bolts.json' with { type: 'json' };

const threadOf = (text: string) => {
  const thread = parseThread(text);
  if (thread === undefined) throw new Error(`${text} is no thread`);
  return thread;
};

const classOf = (text: string) => {
  const propertyClass = parsePropertyClass(text);
  if (propertyClass === undefined) throw new Error(`${text} is no property class`);
  return propertyClass;
};

describe('stress areas of ISO metric threads', () => {
  it.each(bolts.threads)('$thread has the tabled area', ({ thread, As_table }) => {
    expect(Number(stressArea(threadOf(thread)).toPrecision(3))).toBe(As_table);
  });
});

describe('proof stress', () => {
  it.each([
    ['4.8', 12, bolts.property_class['4.8'].Sp],
    ['5.8', 12, bolts.property_class['5.8'].Sp],
    ['8.8', 16, bolts.property_class['8.8 (d<=16 mm)'].Sp],
    ['8.8', 18, bolts.property_class['8.8 (d>16 mm)'].Sp],
    ['9.8', 12, bolts.property_class['9.8'].Sp],
    ['10.9', 12, bolts.property_class['10.9'].Sp],
    ['12.9', 12, bolts.property_class['12.9'].Sp],
  ])('of class %s at %i mm is the standard’s', (propertyClass, millimetres, megapascals) => {
    expect(proofStress(classOf(propertyClass), nanometres(millimetres * 1_000_000))).toBe(megapascals);
  });
});

describe('proof loads (table from memory, rounded by the standard to hundreds, not always to the nearest)', () => {
  const rows = (['8.8', '10.9'] as const).flatMap((propertyClass) =>
    Object.entries(bolts.proof_load_table[propertyClass]).map(([thread, newtons]) => ({
      propertyClass,
      thread,
      newtons,
    })),
  );
  it.each(rows)('$thread $propertyClass stands about $newtons N', ({ thread, propertyClass, newtons }) => {
    const load = proofLoad(threadOf(thread), classOf(propertyClass));
    expect(Math.abs(load - newtons)).toBeLessThan(100);
  });
});

describe('torque at three quarters of proof', () => {
  it.each(bolts.torque_examples)('$thread $cls at K $K', ({ thread, cls, K, T_Nm, proof_load_N }) => {
    const bolt = { thread: threadOf(thread), propertyClass: classOf(cls) };
    // the examples start from the tabled area, which is rounded to three figures
    expect(Math.abs(proofLoad(bolt.thread, bolt.propertyClass) / proof_load_N - 1)).toBeLessThan(0.002);
    expect(Math.abs(torqueAtShare(bolt, 0.75, K) / (T_Nm * 1e6) - 1)).toBeLessThan(0.002);
  });
});
