import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { orNone } from './plain-figure.ts';
import type { PrintedDimension, PrintedFigure, PrintedLimits } from './printed.ts';

/** What every group of fields is given: the dimension as it stands, and how to change it. */
export interface EntryProps {
  readonly entry: PrintedDimension;
  readonly change: (change: Partial<PrintedDimension>) => void;
  readonly document: SpecSheetDocument;
}

/** A dimension as a form begins with it. */
export const newDimension: PrintedDimension = {
  code: '',
  name: '',
  place: '',
  kind: 'length',
  unit: 'mm',
  decimals: 2,
  method: 'single',
  boreRule: null,
  readingsOf: null,
  minuend: null,
  subtrahend: null,
  numerator: null,
  denominator: null,
  scale: null,
  stated: null,
  rule: 'iso-14253-1-2017',
  inside: true,
  nominal: null,
  plausibleSpan: null,
  instrumentKind: '',
  caution: '',
  source: '',
  page: '',
  positions: [{ code: 'at', label: '', level: null, axis: null, height: null }],
  limits: [],
};

const nothing = { low: null, high: null };
export const newLimits = (sizeClass: string): PrintedLimits => ({ sizeClass, standard: nothing, service: nothing });

export const isOfTheBore = ({ method }: PrintedDimension): boolean =>
  method === 'size' || method === 'out-of-round' || method === 'taper';
export const isOfTwo = ({ method }: PrintedDimension): boolean => method === 'difference' || method === 'ratio';
/** Readings are keyed for it, so it says where. */
export const isRead = (of: PrintedDimension): boolean =>
  !isOfTwo(of) && of.method !== 'stated' && of.readingsOf === null;

const said = (figure: PrintedFigure | null): PrintedFigure | null =>
  figure === null || figure.value.trim() === '' ? null : { ...figure, value: figure.value.trim().replace(',', '.') };

const hasFigure = ({ standard, service }: PrintedLimits): boolean =>
  [standard.low, standard.high, service.low, service.high].some((figure) => figure !== null);

/** What a form holds as it is sent: what belongs to another method is left out, an empty figure is none. */
export function tidied(of: PrintedDimension): PrintedDimension {
  const difference = of.method === 'difference';
  const ratio = of.method === 'ratio';
  const readingsOf = isOfTwo(of) || of.method === 'stated' || of.method === 'felt' ? null : of.readingsOf;
  return {
    ...of,
    code: of.code.trim(),
    name: of.name.trim(),
    boreRule: isOfTheBore(of) ? (of.boreRule ?? 'per-level') : null,
    readingsOf,
    minuend: difference ? of.minuend : null,
    subtrahend: difference ? of.subtrahend : null,
    numerator: ratio ? of.numerator : null,
    denominator: ratio ? of.denominator : null,
    scale: ratio ? said(of.scale) : null,
    stated: of.method === 'stated' ? said(of.stated) : null,
    nominal: said(of.nominal),
    plausibleSpan: said(of.plausibleSpan),
    positions: isRead({ ...of, readingsOf })
      ? of.positions.map((position) => ({ ...position, height: orNone(position.height) }))
      : [],
    limits: of.limits
      .map(({ sizeClass, standard, service }) => ({
        sizeClass: sizeClass.trim(),
        standard: { low: said(standard.low), high: said(standard.high) },
        service: { low: said(service.low), high: said(service.high) },
      }))
      .filter(hasFigure),
  };
}
