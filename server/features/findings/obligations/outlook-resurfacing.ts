import { type Print, roundedDifference, roundedInterval } from '#contracts/figures.ts';
import type { Outlook, OutlookQuery } from '#contracts/obligations.ts';
import { type AboveThePiston, type CutFace, type FaceCut, faceCutForeseen } from '#domain/build/face-cut.ts';
import type { QuantityKind } from '#domain/units/quantity.ts';
import { cubicMillimetres, nanometres } from '#domain/units/quantity.ts';
import { type DimensionOnSheet, limitsFor, type Sheet, standardClass } from '#features/specs/service.ts';
import type { StandingRow } from './outlook-queries.ts';

type Resurfacing = NonNullable<Outlook['resurfacing']>;

/** Codes that a sheet keeps the figures of the room above the piston under, measured or stated: docs/spec-sheets.md. */
const wanted = {
  'chamber-volume': { kind: 'volume', name: 'the chamber’s volume' },
  'head-gasket': { kind: 'length', name: 'the head gasket’s thickness, pressed' },
  deck: { kind: 'length', name: 'the deck, piston below the cylinder’s top' },
} as const satisfies Record<string, { readonly kind: QuantityKind; readonly name: string }>;

interface OfTheJob {
  readonly sheet: Sheet;
  readonly standing: readonly StandingRow[];
}

export interface ResurfacingSubject extends OfTheJob {
  readonly subject: DimensionOnSheet;
  readonly family: { readonly boreNm: number; readonly strokeNm: number; readonly cycle: string };
  readonly asked: OutlookQuery;
}

/** What a dimension comes to: as this job measured it, else as the sheet states it. */
function figureOf({ sheet, standing }: OfTheJob, code: string, kind: QuantityKind): number | undefined {
  const dimension = sheet.dimensions.find((one) => one.code === code && one.kind === kind);
  if (dimension === undefined) return undefined;
  if (dimension.method.type === 'stated') return dimension.method.value;
  return standing.find((row) => row.dimension === code && row.valueType === 'point')?.low;
}

const faceOf = ({ place }: DimensionOnSheet): CutFace | undefined =>
  place.layer === 'head' || place.layer === 'cylinder' ? place.layer : undefined;

const cutPrint: Print = { unit: 'mm', decimals: 3 };
const length = (value: number) => roundedDifference(value, cutPrint);
const nanometresOf = (text: string) => nanometres(Math.round(Number(text.replace(',', '.')) * 1e6));

/** The least that makes a face true again: what a blade found under the straightedge; 0 where no blade told it. */
function leastCut({ subject, standing }: ResurfacingSubject): number {
  const found = standing.find(({ dimension }) => dimension === subject.code);
  return found?.valueType === 'interval' ? (found.high ?? found.low) : 0;
}

interface Room {
  readonly above: AboveThePiston | undefined;
  readonly missing: readonly string[];
  readonly assumed: readonly string[];
}

function roomOf(of: ResurfacingSubject): Room {
  const length = (code: string) => figureOf(of, code, 'length');
  const volume = (code: string) => figureOf(of, code, 'volume');
  const [chamber, gasket, deck] = [volume('chamber-volume'), length('head-gasket'), length('deck')];
  const missing = Object.entries(wanted)
    .filter(([code, { kind }]) => figureOf(of, code, kind) === undefined)
    .map(([code, { name }]) => {
      const onSheet = of.sheet.dimensions.some((one) => one.code === code);
      return onSheet ? `${name}: on the sheet, not measured yet` : `${name}: not on the sheet (as ${code})`;
    });
  const measured = length('bore');
  const bore = nanometres(measured ?? of.family.boreNm);
  const [dish, dome] = [volume('dish-volume'), volume('dome-volume')];
  const assumed = [
    ...(measured === undefined ? ['The bore isn’t measured: the family’s nominal bore counts.'] : []),
    ...(dish === undefined && dome === undefined ? ['No dish or dome on the sheet: the crown counts as flat.'] : []),
    ...(of.family.cycle === 'two-stroke' ? ['Over the whole stroke: above the exhaust port it is less.'] : []),
  ];
  if (chamber === undefined || gasket === undefined || deck === undefined)
    return { above: undefined, missing, assumed };
  const above: AboveThePiston = {
    bore,
    stroke: nanometres(of.family.strokeNm),
    chamber: cubicMillimetres(chamber),
    opening: nanometres(length('chamber-opening') ?? bore),
    gasket: { bore: nanometres(length('gasket-bore') ?? bore), thickness: nanometres(gasket) },
    deck: nanometres(deck),
    dish: cubicMillimetres(dish ?? 0),
    dome: cubicMillimetres(dome ?? 0),
  };
  return { above, missing, assumed };
}

/** What may still come off: from the measured height of the part to the least that its sheet allows. */
function allowanceOf(
  of: ResurfacingSubject,
  face: CutFace,
  remove: number,
): Pick<Resurfacing, 'allowance'> & { missing: string[] } {
  const code = `${face}-height`;
  const dimension = of.sheet.dimensions.find((one) => one.code === code && one.kind === 'length');
  if (dimension === undefined)
    return { allowance: null, missing: [`the least height of the ${face}: not on the sheet (as ${code})`] };
  const { limits } = limitsFor(dimension, standardClass);
  const least = limits.service.low ?? limits.standard.low;
  if (least === undefined)
    return { allowance: null, missing: [`the least height of the ${face}: ${code} has no lower limit`] };
  const height = figureOf(of, code, 'length');
  if (height === undefined) return { allowance: null, missing: [`${dimension.name}: on the sheet, not measured yet`] };
  const print: Print = { unit: 'mm', decimals: Math.max(dimension.decimals, 3) };
  const figure = (value: number) => roundedDifference(value, print);
  return {
    allowance: {
      name: dimension.name,
      height: figure(height),
      least: figure(least),
      left: figure(height - least),
      leftAfter: figure(height - least - remove),
      enough: height - least - remove >= 0,
    },
    missing: [],
  };
}

const cautions: Readonly<Record<CutFace, string>> = {
  head: 'The valves come as much nearer to the piston, and the cams turn a little later: prove both by a trial assembly.',
  cylinder:
    'Piston, valves and ports shift against each other: prove valve clearance, and port heights of a two-stroke.',
};

/** What cutting the face that a finding is about would come to; null: it is about no face of head or cylinder. */
export function resurfacingOf(of: ResurfacingSubject): Outlook['resurfacing'] {
  const face = faceOf(of.subject);
  if (face === undefined) return null;
  const least = leastCut(of);
  const cut: FaceCut = {
    face,
    remove: of.asked.remove === undefined ? nanometres(least) : nanometresOf(of.asked.remove),
    baseGasket: of.asked.gasket === undefined ? nanometres(0) : nanometresOf(of.asked.gasket),
  };
  const { above, missing, assumed } = roomOf(of);
  const allowance = allowanceOf(of, face, cut.remove);
  const foreseen = above === undefined ? undefined : faceCutForeseen(above, cut);
  return {
    face,
    leastCut: least === 0 ? null : length(least),
    remove: length(cut.remove),
    baseGasket: length(cut.baseGasket),
    ratio: foreseen?.ok === true ? foreseen.ratio : null,
    squish:
      foreseen?.ok === true
        ? {
            before: length(foreseen.squish.before),
            after: roundedInterval(foreseen.squish.after.low, foreseen.squish.after.high, cutPrint),
          }
        : null,
    tooMuch: foreseen?.ok === false,
    allowance: allowance.allowance,
    missing: [...missing, ...allowance.missing],
    assumed: [...assumed],
    caution: `${cautions[face]} The maker’s least height, squish and fuel decide.`,
  };
}
