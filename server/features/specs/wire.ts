import { difference, type Print, quantity, quantityOrNull } from '#contracts/figures.ts';
import type { Limits as LimitsOnWire, SheetDimension, SheetPosition } from '#contracts/specs.ts';
import type { Limits } from '#domain/metrology/dimension.ts';
import type { DimensionOnSheet, PlaceOnSheet, PositionOnSheet } from './sheet.ts';

const millimetres: Print = { unit: 'mm', decimals: 1 };

export const limitsOnWire = (limits: Limits, sizeClass: string, print: Print): LimitsOnWire => ({
  sizeClass,
  standard: { low: quantityOrNull(limits.standard.low, print), high: quantityOrNull(limits.standard.high, print) },
  service: { low: quantityOrNull(limits.service.low, print), high: quantityOrNull(limits.service.high, print) },
});

export const placeOnWire = ({ code, name, layer, material, plated, alphaPerKelvin }: PlaceOnSheet) => ({
  code,
  name,
  layer,
  material,
  plated,
  expansionPerKelvin: alphaPerKelvin ?? null,
});

export const positionOnWire = ({ code, label, level, axis, heightNm }: PositionOnSheet): SheetPosition => ({
  code,
  label,
  level: level ?? null,
  axis: axis ?? null,
  height: quantityOrNull(heightNm, millimetres),
});

/** What the sheet says of a dimension, without its limits. */
export function factsOnWire(dimension: DimensionOnSheet): Omit<SheetDimension, 'limits'> {
  const { method, nominal, plausibleSpan, place, positions } = dimension;
  const isDifference = method.type === 'difference';
  return {
    code: dimension.code,
    name: dimension.name,
    placeCode: place.code,
    kind: dimension.kind,
    unit: dimension.unit,
    decimals: dimension.decimals,
    method: method.type,
    boreRule: dimension.boreRule,
    readingsOf: dimension.readingsOf ?? null,
    minuend: isDifference ? method.minuend : null,
    subtrahend: isDifference ? method.subtrahend : null,
    numerator: method.type === 'ratio' ? method.numerator : null,
    denominator: method.type === 'ratio' ? method.denominator : null,
    scale:
      method.type === 'ratio' && dimension.scaleUnit !== null
        ? quantityOrNull(method.scale, { unit: dimension.scaleUnit, decimals: 0 })
        : null,
    stated: method.type === 'stated' ? quantity(method.value, dimension) : null,
    rule: dimension.rule,
    inside: dimension.inside,
    nominal: quantityOrNull(nominal, dimension),
    plausibleSpan: plausibleSpan === null ? null : difference(plausibleSpan, dimension),
    instrumentKind: dimension.instrumentKind,
    caution: dimension.caution,
    source: dimension.source,
    page: dimension.page,
    positions: positions.map(positionOnWire),
  };
}

export const dimensionOnWire = (dimension: DimensionOnSheet): SheetDimension => ({
  ...factsOnWire(dimension),
  limits: [...dimension.limits].map(([sizeClass, limits]) => limitsOnWire(limits, sizeClass, dimension)),
});

export const lengthOnWire = (nanometres: bigint, decimals: number) =>
  quantity(Number(nanometres), { unit: 'mm', decimals });
export const angleOnWire = (microDegrees: bigint) => quantity(Number(microDegrees), { unit: 'deg', decimals: 0 });
