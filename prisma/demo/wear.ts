import { dimensionOf } from './bench.ts';
import type { FamilyCode } from './families/families.ts';
import { chance } from './random.ts';
import { type Seen, specimen } from './specimen.ts';
import type { Visit } from './visit.ts';

/** Hours after which a bore of the family is worn out, as these engines wear. */
const lives: Readonly<Record<FamilyCode, number>> = { H355: 254, H388: 262, O125: 96, T615: 430 };

/** Share of its life that the part of a dimension has used up: 0 as new, 1 at its limit. */
export function wornOf(visit: Visit, code: string): number {
  const dimension = dimensionOf(visit, code);
  const { family, fitted, serial } = visit.engine;
  const part = fitted.get(dimension.place === 'engine' ? 'ring-top' : dimension.place);
  const hours = (visit.minutes - Number(part?.fitted_minutes ?? 0)) / 60;
  const life = lives[family.code];
  const own = chance(`${serial} ${code}`);
  if (dimension.place === 'cylinder') return (hours / life) * (code === 'bore' ? 1 : own.between(0.3, 0.6));
  if (/^(piston|ring|pin)/.test(dimension.place)) return (hours / (life * 0.9)) * own.between(0.7, 0.95);
  if (dimension.place === 'engine') return (hours / life) * own.between(0.6, 0.9);
  if (code.startsWith('lash-')) return own.between(0, 0.7) + hours / (life * 2.6);
  return (hours / (life * 2.4)) * own.between(0.5, 1);
}

/** Readings as that part would give them on this visit; `worn` overrides how far it is worn. */
export function seenOn(
  visit: Visit,
  code: string,
  of: { readonly round: string; readonly worn?: number },
): readonly Seen[] {
  const dimension = dimensionOf(visit, code);
  const sizeClass = String(visit.engine.fitted.get(dimension.place)?.size_class ?? 'standard');
  return specimen(dimension, {
    worn: of.worn ?? wornOf(visit, code),
    sizeClass,
    luck: chance(`${visit.number} ${code} ${of.round}`),
  });
}
