import { difference, type Print, quantity } from '#contracts/figures.ts';
import type { LoosePredictions, LoosePredictionsFound } from '#contracts/loose-measuring.ts';
import type { GapInterval } from '#domain/metrology/cross-checks.ts';
import type { Bounds } from '#domain/metrology/dimension.ts';
import { gapAfterBoring, metalLeft, pistonsForeseen, resurfacingForeseen } from '#domain/metrology/predictions.ts';
import { intervalAt, lengthAt, quantityAt, quantityIf, refuse } from './body.ts';

type Pistons = NonNullable<LoosePredictions['pistons']>;

const millimetres: Print = { unit: 'mm', decimals: 3 };
const volume: Print = { unit: 'cm3', decimals: 2 };
const length = (value: number) => quantity(value, millimetres);
const lengthIf = (value: Pistons['clearance']['low'], pointer: string) => quantityIf(value, 'length', pointer);

const gapOnWire = ({ low, high }: GapInterval) => ({
  low: length(low).value,
  high: high === null ? null : length(high).value,
  unit: 'mm',
});

function boundsAt({ low, high }: Pistons['clearance'], pointer: string): Bounds {
  const least = lengthIf(low, `${pointer}/low`);
  const most = lengthIf(high, `${pointer}/high`);
  if (least !== undefined && most !== undefined && least > most) return refuse(pointer, 'The range is upside down.');
  return { ...(least === undefined ? {} : { low: least }), ...(most === undefined ? {} : { high: most }) };
}

function ringGapOf({ ringGap }: LoosePredictions): LoosePredictionsFound['ringGap'] {
  if (ringGap === undefined) return null;
  const bore = {
    now: lengthAt(ringGap.boreNow, '/ringGap/boreNow'),
    opened: lengthAt(ringGap.boreThen, '/ringGap/boreThen'),
  };
  const found = gapAfterBoring(
    intervalAt(ringGap.gap, '/ringGap/gap'),
    bore,
    boundsAt(ringGap.standard, '/ringGap/standard'),
  );
  return { gap: gapOnWire(found.gap), outlook: found.outlook };
}

function boreOf({ bore }: Pistons) {
  const at = '/pistons/bore';
  const low = lengthAt(bore.narrowest, `${at}/narrowest`);
  const high = lengthAt(bore.widest, `${at}/widest`);
  if (high < low) return refuse(`${at}/widest`, 'It is narrower than the narrowest.');
  const largest = lengthIf(bore.largest, `${at}/largest`);
  return {
    low,
    high,
    expanded: lengthIf(bore.expandedUncertainty, `${at}/expandedUncertainty`) ?? 0,
    plated: bore.plated ?? false,
    ...(largest === undefined ? {} : { largest }),
  };
}

function pistonsOf(asked: Pistons): LoosePredictionsFound['pistons'] {
  const atHand = asked.atHand.map(({ code, sizeClass, low, high, available }, index) => {
    const at = `/pistons/atHand/${index}`;
    const [least, most] = [lengthAt(low, `${at}/low`), lengthAt(high, `${at}/high`)];
    if (most < least) return refuse(`${at}/high`, 'It is below the low end.');
    return { code, sizeClass, low: least, high: most, available: available ?? 0 };
  });
  const clearance = boundsAt(asked.clearance, '/pistons/clearance');
  return pistonsForeseen(boreOf(asked), atHand, clearance).map((found) => ({
    code: found.piston.code,
    sizeClass: found.piston.sizeClass,
    available: found.piston.available,
    clearance: gapOnWire(found.clearance),
    outlook: found.outlook,
    boreTo: found.boreTo === null ? null : { low: length(found.boreTo.low), high: length(found.boreTo.high) },
    remove: found.remove === null ? null : { least: length(found.remove.least), most: length(found.remove.most) },
  }));
}

function resurfacingOf({ resurfacing }: LoosePredictions): LoosePredictionsFound['resurfacing'] {
  if (resurfacing === undefined) return null;
  const at = (field: string) => `/resurfacing/${field}`;
  const removedBefore = lengthIf(resurfacing.removedBefore, at('removedBefore'));
  const allowed = lengthIf(resurfacing.allowed, at('allowed'));
  const found = resurfacingForeseen({
    swept: quantityAt(resurfacing.sweptVolume, 'volume', at('sweptVolume')),
    clearance: quantityAt(resurfacing.clearanceVolume, 'volume', at('clearanceVolume')),
    opening: lengthAt(resurfacing.opening, at('opening')),
    remove: lengthAt(resurfacing.remove, at('remove')),
    ...(removedBefore === undefined ? {} : { removedBefore }),
    ...(allowed === undefined ? {} : { allowed }),
  });
  if (!found.ok) return refuse(at('remove'), 'That would leave nothing above the piston.');
  return {
    ratioBefore: found.before,
    ratioAfter: found.after,
    clearanceVolume: quantity(found.clearanceVolume, volume),
    left: found.left === null ? null : difference(found.left, millimetres),
  };
}

/** What boring, another piston or resurfacing would come to. */
export function loosePredictions(body: LoosePredictions): LoosePredictionsFound {
  const { pistons } = body;
  const bore = pistons === undefined ? undefined : boreOf(pistons);
  return {
    ringGap: ringGapOf(body),
    pistons: pistons === undefined ? [] : pistonsOf(pistons),
    metalLeft:
      bore?.largest === undefined ? null : difference(metalLeft(bore.high, bore.largest).onDiameter, millimetres),
    resurfacing: resurfacingOf(body),
    caution: 'Foreseen by geometry alone: measure again after the work. The maker’s manual decides.',
  };
}
