import {
  type Bounds,
  type DecisionRule,
  type DimensionDefinition,
  decisionRuleOf,
  type Limits,
  type Method,
  type Position,
} from '#domain/metrology/dimension.ts';
import { baseQuantity, type QuantityKind, quantityKindOf } from '#domain/units/quantity.ts';
import { type UnitCode, unitCodeOf } from '#domain/units/unit-table.ts';
import type { DimensionRow, LimitRow, PlaceRow, PositionRow, RevisionRow } from './queries.ts';

/** The size class whose limits hold when the sheet has none for what is fitted. */
export const standardClass = 'standard';

export interface PlaceOnSheet {
  readonly code: string;
  readonly name: string;
  readonly layer: string | null;
  readonly material: string;
  readonly plated: boolean;
  readonly alphaPerKelvin: number | undefined;
  readonly alphaUncertaintyPerKelvin: number;
}

export interface PositionOnSheet extends Position {
  readonly label: string;
  readonly heightNm: number | null;
}

/** A dimension as the sheet has it, for every size class. */
export interface DimensionOnSheet {
  readonly code: string;
  readonly name: string;
  readonly place: PlaceOnSheet;
  readonly kind: QuantityKind;
  readonly unit: UnitCode;
  readonly decimals: number;
  readonly method: Method;
  readonly boreRule: 'per-level' | 'extremes' | null;
  readonly readingsOf: string | undefined;
  /** In which a ratio's scale is told: the unit of its denominator. */
  readonly scaleUnit: UnitCode | null;
  readonly rule: DecisionRule;
  readonly inside: boolean;
  readonly nominal: number | null;
  readonly plausibleSpan: number | null;
  readonly instrumentKind: string;
  readonly caution: string;
  readonly source: string;
  readonly page: string;
  readonly positions: readonly PositionOnSheet[];
  readonly limits: ReadonlyMap<string, Limits>;
}

/** A spec sheet as the metrology needs it. */
export interface Sheet {
  readonly revision: RevisionRow;
  readonly places: readonly PlaceOnSheet[];
  readonly dimensions: readonly DimensionOnSheet[];
}

/** The size class of what is fitted in a place. */
type SizeClassOf = (placeCode: string) => string;

const methodOf = (row: DimensionRow, scaleKind: QuantityKind): Method => {
  const rule = row.boreRule === 'extremes' ? 'extremes' : 'per-level';
  switch (row.method) {
    case 'single':
    case 'maximum':
    case 'minimum':
    case 'range':
    case 'mean':
    case 'interval':
    case 'felt':
      return { type: row.method };
    case 'size':
    case 'out-of-round':
    case 'taper':
      return { type: row.method, rule };
    case 'difference':
      return { type: 'difference', minuend: row.minuend ?? '', subtrahend: row.subtrahend ?? '' };
    case 'ratio':
      return {
        type: 'ratio',
        numerator: row.numerator ?? '',
        denominator: row.denominator ?? '',
        ...(row.scale === null ? {} : { scale: baseQuantity(scaleKind, row.scale) }),
      };
    case 'stated':
      return { type: 'stated', value: baseQuantity(quantityKindOf(row.kind), row.stated ?? 0) };
    default:
      throw new RangeError(`${row.method} is no method of a dimension`);
  }
};

/** A scale is a figure of the denominator's kind. */
const scaleKindOf = (row: DimensionRow, dimensions: readonly DimensionRow[]): QuantityKind =>
  quantityKindOf(dimensions.find(({ code }) => code === row.denominator)?.kind ?? row.kind);

const scaleUnitOf = (row: DimensionRow, dimensions: readonly DimensionRow[]): UnitCode | null => {
  const denominator = dimensions.find(({ code }) => code === row.denominator);
  return row.scale === null || denominator === undefined ? null : unitCodeOf(denominator.unit);
};

const boundsOf = (kind: QuantityKind, low: number | null, high: number | null): Bounds => ({
  ...(low === null ? {} : { low: baseQuantity(kind, low) }),
  ...(high === null ? {} : { high: baseQuantity(kind, high) }),
});

const placeOf = (row: PlaceRow): PlaceOnSheet => ({
  code: row.code,
  name: row.name,
  layer: row.layer,
  material: row.material,
  plated: row.plated,
  alphaPerKelvin: row.alphaPpb === 0 ? undefined : row.alphaPpb / 1e9,
  alphaUncertaintyPerKelvin: row.alphaUPpb / 1e9,
});

/** A dimension may name a place that the sheet doesn't describe: then only its name is known. */
const undescribed = (code: string): PlaceOnSheet => ({
  code,
  name: code,
  layer: null,
  material: '',
  plated: false,
  alphaPerKelvin: undefined,
  alphaUncertaintyPerKelvin: 0,
});

const positionOf = ({ code, label, level, axis, heightNm }: PositionRow): PositionOnSheet => ({
  code,
  label,
  heightNm,
  ...(level === null ? {} : { level }),
  ...(axis === null ? {} : { axis }),
});

export interface SheetRows {
  readonly revision: RevisionRow;
  readonly places: readonly PlaceRow[];
  readonly dimensions: readonly DimensionRow[];
  readonly positions: readonly PositionRow[];
  readonly limits: readonly LimitRow[];
}

/** Reads the sheet's rows into the words of the metrology. */
export function sheetOf({ revision, places: placeRows, dimensions, positions, limits }: SheetRows): Sheet {
  const places = placeRows.map(placeOf);
  return {
    revision,
    places,
    dimensions: dimensions.map((row): DimensionOnSheet => {
      const kind = quantityKindOf(row.kind);
      const own = limits.filter(({ dimensionId }) => dimensionId === row.id);
      return {
        code: row.code,
        name: row.name,
        place: places.find(({ code }) => code === row.placeCode) ?? undescribed(row.placeCode),
        kind,
        unit: unitCodeOf(row.unit),
        decimals: row.decimals,
        method: methodOf(row, scaleKindOf(row, dimensions)),
        boreRule: row.boreRule === 'per-level' || row.boreRule === 'extremes' ? row.boreRule : null,
        readingsOf: row.readingsOf ?? undefined,
        scaleUnit: scaleUnitOf(row, dimensions),
        rule: decisionRuleOf(row.rule),
        inside: row.inside,
        nominal: row.nominal,
        plausibleSpan: row.plausibleSpan,
        instrumentKind: row.instrumentKind,
        caution: row.caution,
        source: row.source,
        page: row.page,
        positions: positions.filter(({ dimensionId }) => dimensionId === row.id).map(positionOf),
        limits: new Map(
          own.map((limit) => [
            limit.sizeClass,
            {
              standard: boundsOf(kind, limit.standardLow, limit.standardHigh),
              service: boundsOf(kind, limit.serviceLow, limit.serviceHigh),
            },
          ]),
        ),
      };
    }),
  };
}

/** The limits for a size class, and whose they are: those of 'standard' when the sheet has none of its own for it. */
export function limitsFor(
  dimension: DimensionOnSheet,
  sizeClass: string,
): { readonly sizeClass: string; readonly limits: Limits } {
  const own = dimension.limits.get(sizeClass);
  if (own !== undefined) return { sizeClass, limits: own };
  return { sizeClass: standardClass, limits: dimension.limits.get(standardClass) ?? { standard: {}, service: {} } };
}

/** A dimension as the metrology judges it, for the size class of what is fitted in its place. */
export function definitionOf(dimension: DimensionOnSheet, sizeClassOf: SizeClassOf): DimensionDefinition {
  const { code, name, kind, method, positions, readingsOf, rule, place, nominal, plausibleSpan } = dimension;
  return {
    code,
    name,
    kind,
    method,
    positions,
    limits: limitsFor(dimension, sizeClassOf(place.code)).limits,
    rule,
    plated: place.plated,
    ...(readingsOf === undefined ? {} : { readingsOf }),
    ...(place.alphaPerKelvin === undefined
      ? {}
      : {
          material: {
            alphaPerKelvin: place.alphaPerKelvin,
            alphaUncertaintyPerKelvin: place.alphaUncertaintyPerKelvin,
          },
        }),
    ...(nominal === null || plausibleSpan === null
      ? {}
      : { plausible: { nominal: baseQuantity(kind, nominal), span: baseQuantity(kind, plausibleSpan) } }),
  };
}
