// Source: three worked cases from public leaflets and tool pages (marked 'seen' in the data), the others from statics.
// See data/fasteners-torque-adapter.json.
import { describe, expect, it } from 'vitest';
import { settingWithAdapter } from '#domain/fasteners/adapter.ts';
import { microDegrees, micronewtonMetres, nanometres } from '#domain/units/quantity.ts';
import adapter from './data/fasteners-torque-adapter.json' with { type: 'json' };

describe('setting of a torque wrench with an adapter', () => {
  it.each(adapter.cases)('$T with $L and $E at $theta_deg°: $T_set ($source)', ({ T, L, E, theta_deg, T_set }) => {
    // the cases don't say in which unit: the ratio is the same in any
    const outcome = settingWithAdapter({
      torque: micronewtonMetres(T * 1e6),
      wrenchLength: nanometres(L * 1e6),
      adapterLength: nanometres(E * 1e6),
      angle: microDegrees(theta_deg * 1e6),
    });
    expect(outcome).toEqual({ ok: true, setting: Math.round(T_set * 1e6) });
  });
});
