import { type Print, rounded } from '#contracts/figures.ts';
import type { LooseRingClock, LooseRingClockFound } from '#contracts/loose-bench.ts';
import type { Quantity } from '#contracts/wire.ts';
import { type PlacedGap, placeRings, type RingClock } from '#domain/build/ring-clock.ts';
import { type StandardGap, standardGaps, usualGapRule } from '#domain/build/ring-rule.ts';
import { ringFaultSentence } from '#domain/build/ring-words.ts';
import type { MicroDegrees } from '#domain/units/quantity.ts';
import { quantityAt, quantityIf, refuse } from './body.ts';

const angle: Print = { unit: 'deg', decimals: 0 };
const turn = 360_000_000;

/** An angle of the clock, from 0 to below 360°. */
function clockAt(given: Quantity, pointer: string): MicroDegrees {
  const found = quantityAt(given, 'angle', pointer);
  return found >= 0 && found < turn ? found : refuse(pointer, 'An angle is from 0 to below 360°.');
}

const clockIf = (given: Quantity | undefined, pointer: string): MicroDegrees | null =>
  given === undefined ? null : clockAt(given, pointer);

/** A least angle between two gaps, which are never more than half a turn apart. */
function apartAt(given: Quantity | undefined, pointer: string): MicroDegrees | null {
  const found = quantityIf(given, 'angle', pointer) ?? null;
  if (found !== null && (found < 0 || found > turn / 2)) refuse(pointer, 'Two gaps are 0 to 180° apart.');
  return found;
}

function clockOf(body: LooseRingClock): RingClock {
  body.rings.forEach(({ code }, index) => {
    if (body.rings.findIndex((other) => other.code === code) < index)
      refuse(`/rings/${index}/code`, `Ring ${code} is there twice.`);
  });
  return {
    rings: body.rings.map(({ code, name, part, makersAngle, pin, faces }, index) => ({
      code,
      name: name ?? code,
      part,
      makersAngle: clockIf(makersAngle, `/rings/${index}/makersAngle`),
      pin: clockIf(pin, `/rings/${index}/pin`),
      faces,
    })),
    zones: (body.zones ?? []).map(({ from, to, reason }, index) => ({
      from: clockAt(from, `/zones/${index}/from`),
      to: clockAt(to, `/zones/${index}/to`),
      reason,
    })),
    leastSeparation: apartAt(body.leastSeparation, '/leastSeparation'),
    railOffset: apartAt(body.railOffset, '/railOffset'),
    angleTolerance: apartAt(body.angleTolerance, '/angleTolerance'),
  };
}

/** Where the rule of thumb would put the rings; nothing without a rule. */
function byRule({ rule }: LooseRingClock, clock: RingClock): readonly StandardGap[] {
  if (rule === undefined) return [];
  const found = standardGaps(clock, {
    start: clockIf(rule.start, '/rule/start') ?? usualGapRule.start,
    spacerOffset: apartAt(rule.spacerOffset, '/rule/spacerOffset') ?? usualGapRule.spacerOffset,
    railOffset: apartAt(rule.railOffset, '/rule/railOffset') ?? usualGapRule.railOffset,
  });
  if (found.ok) return found.gaps;
  const index = clock.rings.findIndex(({ code }) => code === found.ring);
  return refuse(
    `/rings/${index}`,
    `Ring ${found.ring} finds no place clear of the zones and far enough from the others: ask for less between them.`,
  );
}

/** Whether ring gaps stand well, and every reason why not; those not placed by pin, maker or rule of thumb if asked. */
export function looseRingClock(body: LooseRingClock): LooseRingClockFound {
  const clock = clockOf(body);
  const placed = body.rings.flatMap(({ code, placed: at, seenFacing }, index): PlacedGap[] =>
    at === undefined
      ? []
      : [{ ring: code, angle: quantityAt(at, 'angle', `/rings/${index}/placed`), faces: seenFacing }],
  );
  const told = byRule(body, clock).filter(({ ring }) => !placed.some((one) => one.ring === ring));
  const rings = placeRings(clock, [...told, ...placed]).map((placement) => {
    const own = placed.find(({ ring }) => ring === placement.ring);
    const standard = told.find(({ ring }) => ring === placement.ring);
    const at = own ?? standard;
    return {
      code: placement.ring,
      well: placement.ok,
      words: placement.ok ? [] : placement.faults.map(ringFaultSentence),
      angle: at === undefined ? null : rounded(at.angle, angle),
      by: own === undefined ? (standard?.by ?? null) : ('placed' as const),
    };
  });
  return { well: rings.every(({ well }) => well), rings };
}
