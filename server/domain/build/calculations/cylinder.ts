import type { CubicMillimetres, Nanometres } from '#domain/units/quantity.ts';
import { cubicMillimetres, microDegrees, nanometres, partsPerMillion } from '#domain/units/quantity.ts';
import { compareBore } from '../bore-comparison.ts';
import { effectiveCompressionRatio, pistonBelowTop } from '../crank.ts';
import { clearanceVolume, compressionRatio, discVolume, displacement, squish, sweptVolume } from '../cylinder.ts';
import { gapGrowth, ruleOfThumbGap, taperFromGaps } from '../ring-gap.ts';
import { calculation, figureIn, needed, optional, plainFigure, table } from './calculation.ts';
import type { CautionCode } from './cautions.ts';
import { rodTooShort } from './crank.ts';

const partsOf = (factor: number) => partsPerMillion(Math.round(factor * 1e6));
/** End gap of a four-stroke's top ring as a share of the bore: common practice, no source. */
const [partsLow, partsHigh] = [partsOf(0.0035), partsOf(0.004)];
const positive = { above: true } as const;
const signedLength = { least: -100_000_000, most: 100_000_000 } as const;
const signedVolume = { least: -1_000_000, most: 1_000_000 } as const;

/** Displacement from bore, stroke and count of cylinders. */
export const displacementOf = calculation({
  inputs: {
    bore: needed('length', positive),
    stroke: needed('length', positive),
    cylinders: needed('count', { usual: '1', most: 16 }),
  },
  figures: { displacement: figureIn('cm3', 2), perCylinder: figureIn('cm3', 2), strokeToBore: plainFigure('1', 3) },
  rows: {},
  work: ({ bore, stroke, cylinders }) => ({
    ok: true,
    figures: {
      displacement: displacement({ bore, stroke, cylinders }),
      perCylinder: sweptVolume(bore, stroke),
      strokeToBore: stroke / bore,
    },
    rows: [],
    cautions: [],
  }),
});

const compressionInputs = {
  bore: needed('length', positive),
  stroke: needed('length', positive),
  chamber: needed('volume', positive),
  crown: optional('volume', signedVolume),
  gasketThickness: optional('length'),
  gasketBore: optional('length', positive),
  deck: optional('length', signedLength),
  rodLength: optional('length', positive),
  intakeClosesAfterBottom: optional('angle', { least: 0, most: 179_000_000 }),
  wantedRatio: optional('number', { most: 40 }),
};

/** Compression ratio of one cylinder, geometric and from where the intake closes; squish; the chamber a ratio asks for. */
export const compressionOf = calculation({
  inputs: compressionInputs,
  figures: {
    ratio: plainFigure('1', 2),
    effectiveRatio: plainFigure('1', 2),
    squish: figureIn('mm', 3),
    sweptVolume: figureIn('cm3', 2),
    gasketVolume: figureIn('cm3', 2),
    deckVolume: figureIn('cm3', 2),
    clearanceVolume: figureIn('cm3', 2),
    belowTopAtClosing: figureIn('mm', 2),
    chamberForWanted: figureIn('cm3', 2),
    chamberChange: figureIn('cm3', 2),
  },
  rows: {},
  work: (given) => {
    const { bore, stroke, chamber, rodLength: rod, intakeClosesAfterBottom: closing, wantedRatio } = given;
    const swept = sweptVolume(bore, stroke);
    const gasket = discVolume(given.gasketBore ?? bore, given.gasketThickness ?? nanometres(0));
    const deck = discVolume(bore, given.deck ?? nanometres(0));
    const clearance = clearanceVolume({ chamber, gasket, deck, crown: given.crown ?? cubicMillimetres(0) });
    const ratio = compressionRatio(swept, clearance);
    if (ratio === undefined) return { ok: false, faults: [{ field: 'chamber', reason: 'nothing-above-piston' }] };
    if (wantedRatio !== undefined && wantedRatio <= 1) {
      return { ok: false, faults: [{ field: 'wantedRatio', reason: 'ratio-not-above-one' }] };
    }
    const closed = atClosing({ bore, stroke, clearance, rod, closing });
    if (!closed.ok) return closed;
    const wanted = wantedRatio === undefined ? undefined : swept / (wantedRatio - 1) - (clearance - chamber);
    if (wanted !== undefined && wanted <= 0) {
      return { ok: false, faults: [{ field: 'wantedRatio', reason: 'nothing-above-piston' }] };
    }
    const gapToHead = squish(given.deck ?? nanometres(0), given.gasketThickness ?? nanometres(0));
    const knowsSquish = given.deck !== undefined || given.gasketThickness !== undefined;
    return {
      ok: true,
      figures: {
        ratio,
        effectiveRatio: closed.ratio,
        squish: knowsSquish ? gapToHead : undefined,
        sweptVolume: swept,
        gasketVolume: gasket,
        deckVolume: deck,
        clearanceVolume: clearance,
        belowTopAtClosing: closed.below,
        chamberForWanted: wanted,
        chamberChange: wanted === undefined ? undefined : wanted - chamber,
      },
      rows: [],
      cautions: [
        ...(knowsSquish && gapToHead <= 0 ? (['piston-meets-head'] as const) : []),
        'fuel-and-ignition',
        'first-start',
        'maker-decides',
      ],
    };
  },
});

function atClosing(of: {
  readonly bore: Nanometres;
  readonly stroke: Nanometres;
  readonly clearance: CubicMillimetres;
  readonly rod: Nanometres | undefined;
  readonly closing: ReturnType<typeof microDegrees> | undefined;
}) {
  const { bore, stroke, clearance, rod, closing } = of;
  if (rod === undefined && closing === undefined) return { ok: true as const, ratio: undefined, below: undefined };
  if (rod === undefined) return { ok: false as const, faults: [{ field: 'rodLength', reason: 'missing' as const }] };
  const short = rodTooShort(stroke, rod);
  if (short !== undefined) return { ok: false as const, faults: [short] };
  if (closing === undefined) {
    return { ok: false as const, faults: [{ field: 'intakeClosesAfterBottom', reason: 'missing' as const }] };
  }
  return {
    ok: true as const,
    ratio: effectiveCompressionRatio({ bore, crank: { stroke, rod }, clearance, intakeClosesAfterBottom: closing }),
    below: pistonBelowTop({ stroke, rod }, microDegrees(180_000_000 - closing)),
  };
}

/** Sizes that the cylinder could be brought to, side by side. */
export const boreComparisonOf = calculation({
  inputs: {
    bore: needed('length', positive),
    stroke: needed('length', positive),
    cylinders: needed('count', { usual: '1', most: 16 }),
    clearanceVolume: optional('volume', positive),
    sizes: table('bores'),
  },
  figures: { displacement: figureIn('cm3', 2), ratio: plainFigure('1', 2) },
  rows: {
    displacement: figureIn('cm3', 2),
    gain: plainFigure('%', 1),
    ratio: plainFigure('1', 2),
    cut: figureIn('mm', 3),
    clearanceLeast: figureIn('mm', 3),
    clearanceMost: figureIn('mm', 3),
    gapLeast: figureIn('mm', 2),
    gapMost: figureIn('mm', 2),
    gapGrowth: figureIn('mm', 3),
  },
  work: ({ bore, stroke, cylinders, clearanceVolume: clearance, sizes }) => {
    const rows = sizes.map((size) => {
      const { name, gain, ...compared } = compareBore({ bore, stroke, cylinders, clearance }, size);
      const gapLeast = ruleOfThumbGap(size.bore, partsLow);
      return {
        name,
        figures: { ...compared, gain: gain * 100, gapLeast, gapMost: ruleOfThumbGap(size.bore, partsHigh) },
      };
    });
    const cautions: readonly CautionCode[] = ['bore-is-plated', 'fuel-and-ignition', 'first-start', 'maker-decides'];
    const ratio = clearance === undefined ? undefined : compressionRatio(sweptVolume(bore, stroke), clearance);
    return { ok: true, figures: { displacement: displacement({ bore, stroke, cylinders }), ratio }, rows, cautions };
  },
});

/** Ring gap by the rule of thumb, what a bigger bore does to it, and the taper two gaps tell. */
export const ringGapOf = calculation({
  inputs: {
    bore: needed('length', positive),
    factorLow: needed('number', { usual: '0.0035', most: 0.02 }),
    factorHigh: needed('number', { usual: '0.004', most: 0.02 }),
    gap: optional('length'),
    boreAfter: optional('length', positive),
    gapTop: optional('length'),
    gapBottom: optional('length'),
  },
  figures: {
    gapLeast: figureIn('mm', 3),
    gapMost: figureIn('mm', 3),
    gapGrowth: figureIn('mm', 3),
    gapAfter: figureIn('mm', 3),
    taper: figureIn('mm', 4),
  },
  rows: {},
  work: ({ bore, factorLow, factorHigh, gap, boreAfter, gapTop, gapBottom }) => {
    if (factorHigh < factorLow) return { ok: false, faults: [{ field: 'factorHigh', reason: 'below-the-lower' }] };
    const growth = boreAfter === undefined ? undefined : gapGrowth(nanometres(boreAfter - bore));
    const gapAfter = growth === undefined || gap === undefined ? undefined : gap + growth;
    if (gapAfter !== undefined && gapAfter <= 0)
      return { ok: false, faults: [{ field: 'boreAfter', reason: 'ring-would-butt' }] };
    const both = gapTop !== undefined && gapBottom !== undefined;
    if (!both && (gapTop ?? gapBottom) !== undefined) {
      return { ok: false, faults: [{ field: gapTop === undefined ? 'gapTop' : 'gapBottom', reason: 'missing' }] };
    }
    return {
      ok: true,
      figures: {
        gapLeast: ruleOfThumbGap(bore, partsOf(factorLow)),
        gapMost: ruleOfThumbGap(bore, partsOf(factorHigh)),
        gapGrowth: growth,
        gapAfter,
        taper: both ? taperFromGaps(gapTop, gapBottom) : undefined,
      },
      rows: [],
      cautions: ['gap-butts', 'maker-decides'],
    };
  },
});
