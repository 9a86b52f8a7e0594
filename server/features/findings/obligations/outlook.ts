import { type Print, roundedDifference, roundedInterval } from '#contracts/figures.ts';
import type { Outlook, OutlookQuery } from '#contracts/obligations.ts';
import type { QuantityInterval } from '#contracts/wire.ts';
import { coverageFactor } from '#domain/metrology/guard-band.ts';
import {
  gapAfterBoring,
  metalLeft,
  type Outlook as OutlookWord,
  type PistonForeseen,
  pistonsForeseen,
} from '#domain/metrology/predictions.ts';
import { type DimensionOnSheet, limitsFor, type Sheet, specOf } from '#features/specs/service.ts';
import { availableBySize } from '#features/stores/parts/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findStanding, findSubject, type StandingRow } from './outlook-queries.ts';
import { resurfacingOf } from './outlook-resurfacing.ts';
import { oversizeChoice } from './oversize-choice.ts';

const nothing: Outlook = { bore: null, metalLeft: null, pistons: [], choice: null, gaps: [], resurfacing: null };

interface Pair {
  readonly bore: DimensionOnSheet;
  readonly piston: DimensionOnSheet;
  readonly clearance: DimensionOnSheet;
}

/** The bore, the piston and their clearance that a dimension belongs to; out-of-round and taper belong to their bore. */
function pairOf(sheet: Sheet, code: string): Pair | undefined {
  const own = sheet.dimensions.find((dimension) => dimension.code === code);
  const read = own?.readingsOf ?? code;
  for (const clearance of sheet.dimensions) {
    const { method } = clearance;
    if (method.type !== 'difference') continue;
    const bore = sheet.dimensions.find((dimension) => dimension.code === method.minuend);
    const piston = sheet.dimensions.find((dimension) => dimension.code === method.subtrahend);
    if (bore?.method.type !== 'size' || piston === undefined) continue;
    if ([code, read].some((one) => one === bore.code || one === piston.code || one === clearance.code)) {
      return { bore, piston, clearance };
    }
  }
  return undefined;
}

const textOf = ({ low, high, unit }: QuantityInterval): string =>
  high === null ? `${low} ${unit} or more` : `${low} to ${high} ${unit}`;

const outlookWords: Readonly<Record<OutlookWord, string>> = {
  inside: 'within standard',
  partly: 'partly within standard',
  outside: 'not within standard',
};

interface Foreseeing {
  readonly pair: Pair;
  readonly now: { readonly low: number; readonly high: number; readonly expanded: number };
  readonly print: Print;
}

function pistonOnWire({ piston, clearance, outlook, boreTo, remove }: PistonForeseen, { print, pair }: Foreseeing) {
  const finer: Print = { ...print, decimals: pair.clearance.decimals };
  const room = roundedInterval(clearance.low, clearance.high, finer);
  const to = boreTo === null ? null : roundedInterval(boreTo.low, boreTo.high, print);
  const off = remove === null ? null : roundedInterval(remove.least, remove.most, finer);
  const stock = piston.available === 0 ? 'none in stores' : `${piston.available} in stores`;
  const work = off === null || to === null ? 'It can’t be bored to it.' : `Bored to ${textOf(to)}: ${textOf(off)} off.`;
  const stays = pair.bore.place.plated ? '' : ` ${work}`;
  return {
    sizeClass: piston.sizeClass,
    available: piston.available,
    clearance: room,
    outlook,
    boreTo: to,
    remove: off,
    words: `Piston ${piston.sizeClass} (${stock}): clearance now ${textOf(room)}, ${outlookWords[outlook]}.${stays}`,
  };
}

async function pistonsOf(sql: Sql, sheet: Sheet, foreseeing: Foreseeing): Promise<Pick<Outlook, 'pistons' | 'choice'>> {
  const { pair, now } = foreseeing;
  const { bore, piston, clearance } = pair;
  const { familyId } = sheet.revision;
  const available = await availableBySize(sql, { familyId, placeCode: piston.place.code });
  const pistons = [...piston.limits].flatMap(([sizeClass, { standard }]) =>
    standard.low === undefined || standard.high === undefined
      ? []
      : [
          {
            code: sizeClass,
            sizeClass,
            low: standard.low,
            high: standard.high,
            available: available.get(sizeClass) ?? 0,
          },
        ],
  );
  const largest = largestOf(bore);
  const boreNow = { ...now, plated: bore.place.plated, ...(largest === undefined ? {} : { largest }) };
  const foreseen = pistonsForeseen(boreNow, pistons, limitsFor(clearance, 'standard').limits.standard);
  const place = { familyId, placeCode: piston.place.code };
  return {
    pistons: foreseen.map((one) => pistonOnWire(one, foreseeing)),
    choice: await oversizeChoice(sql, {
      bore: boreNow,
      foreseen,
      place,
      print: foreseeing.print,
      classes: topsOf(bore),
    }),
  };
}

/** The largest diameter of any size class as new: beyond it no piston is listed. A sheet of one class names none. */
function largestOf({ limits }: DimensionOnSheet): number | undefined {
  if (limits.size < 2) return undefined;
  const tops = [...topsOf({ limits }).values()];
  return tops.length === 0 ? undefined : Math.max(...tops);
}

/** The largest diameter of each size class as new. */
const topsOf = ({ limits }: Pick<DimensionOnSheet, 'limits'>): ReadonlyMap<string, number> =>
  new Map(
    [...limits].flatMap(([sizeClass, { standard }]) =>
      standard.high === undefined ? [] : [[sizeClass, standard.high] as const],
    ),
  );

/** A ring's end gap: taken in the bore at one place, or at its levels. A sheet's places for rings begin with "ring". */
const isEndGap = ({ method, place, positions }: DimensionOnSheet): boolean =>
  method.type === 'interval' &&
  place.code.startsWith('ring') &&
  (positions.length <= 1 || positions.every(({ level }) => level !== undefined));

/** End gaps of the rings that are measured, in each larger size class that the sheet lists. */
function gapsOf(sheet: Sheet, standing: readonly StandingRow[], { pair, now, print }: Foreseeing): Outlook['gaps'] {
  if (pair.bore.place.plated) return [];
  const larger = [...pair.bore.limits].filter(([, { standard }]) => (standard.low ?? 0) > now.high);
  return sheet.dimensions.flatMap((dimension) => {
    const gap = standing.find((row) => row.dimension === dimension.code && row.valueType === 'interval');
    if (!isEndGap(dimension) || gap === undefined) return [];
    return larger.map(([sizeClass, { standard }]) => {
      const opened = { now: now.high, opened: standard.low ?? now.high };
      const after = gapAfterBoring(
        { low: gap.low, high: gap.high },
        opened,
        limitsFor(dimension, sizeClass).limits.standard,
      );
      const room = roundedInterval(after.gap.low, after.gap.high, { ...print, decimals: dimension.decimals });
      return {
        name: dimension.name,
        sizeClass,
        gap: room,
        outlook: after.outlook,
        words: `${dimension.name} of this ring at ${sizeClass}: ${textOf(room)}, ${outlookWords[after.outlook]}.`,
      };
    });
  });
}

/** What the ways to settle an obligation about a bore, a piston, their clearance or a face would come to. */
export async function outlookOf(sql: Sql, obligationId: string, asked: OutlookQuery = {}): Promise<Outlook> {
  const subject = found(await findSubject(sql, obligationId), 'such obligation');
  if (subject.dimension === null) return nothing;
  const [sheet, standing] = await Promise.all([specOf(sql, subject.revisionId), findStanding(sql, subject.jobId)]);
  const pair = pairOf(sheet, subject.dimension);
  if (pair === undefined) {
    const dimension = sheet.dimensions.find(({ code }) => code === subject.dimension);
    if (dimension === undefined) return nothing;
    return { ...nothing, resurfacing: resurfacingOf({ sheet, standing, subject: dimension, family: subject, asked }) };
  }
  const measured = standing.find(({ dimension, valueType }) => dimension === pair.bore.code && valueType === 'point');
  if (measured === undefined) return nothing;
  const { bore } = pair;
  const print: Print = { unit: bore.unit, decimals: bore.decimals };
  const expanded = Math.ceil(coverageFactor(null) * measured.u);
  const now = { low: measured.low - measured.spread, high: measured.low, expanded };
  const foreseeing: Foreseeing = { pair, now, print };
  const largest = largestOf(bore);
  const left = bore.place.plated || largest === undefined ? null : metalLeft(now.high, largest);
  const figure = (value: number) => roundedDifference(value, print);
  return {
    bore: {
      name: bore.name,
      narrowest: figure(now.low),
      widest: figure(now.high),
      expandedUncertainty: roundedDifference(expanded, { ...print, decimals: print.decimals + 1 }),
    },
    metalLeft: left === null ? null : { onDiameter: figure(left.onDiameter), perSide: figure(left.perSide) },
    ...(await pistonsOf(sql, sheet, foreseeing)),
    gaps: gapsOf(sheet, standing, foreseeing),
    resurfacing: null,
  };
}
