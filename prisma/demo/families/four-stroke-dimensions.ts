import {
  boreDimensions,
  crankEndFloat,
  type DimensionFigures,
  difference,
  type LimitFigures,
  length,
  limits,
  named,
  standardOnly,
  upTo,
} from '../spec-sheet.ts';
import type { FourStrokeFigures } from './four-stroke-figures.ts';
import { camsAndChain, headAndValves } from './four-stroke-head.ts';

const only = (standard: LimitFigures): Readonly<Record<string, LimitFigures>> => ({ standard });

function pistonAndRings(of: FourStrokeFigures): readonly DimensionFigures[] {
  const gap = (code: string, name: string, ring: string, gaps: LimitFigures): DimensionFigures =>
    length(
      code,
      name,
      { type: 'interval' },
      {
        place: ring,
        limits: only(gaps),
        instrument: 'feeler set',
        decimals: 2,
        page: 'p. 12',
        plausible: [0, 2],
        caution: 'Square the ring with the piston crown, at least 10 mm down.',
      },
    );
  const side = (code: string, name: string, ring: string, room: LimitFigures): DimensionFigures =>
    length(
      code,
      name,
      { type: 'interval' },
      {
        place: ring,
        limits: only(room),
        instrument: 'feeler set',
        decimals: 2,
        page: 'p. 12',
        positions: named([
          ['front', 'at the front'],
          ['rear', 'at the rear'],
        ]),
      },
    );
  return [
    length(
      'piston',
      `Piston, ${of.piston.height} mm above the skirt edge`,
      { type: 'single' },
      {
        place: 'piston',
        limits: of.piston.limits,
        instrument: 'micrometer',
        page: 'p. 11',
        plausible: [of.bore.nominal - 0.5, of.bore.nominal + 1.1],
      },
    ),
    length('clearance', 'Clearance, bore − piston', difference('bore', 'piston'), {
      place: 'piston',
      limits: only(of.clearance),
      instrument: '',
      page: 'p. 11',
    }),
    gap('ring-gap-top', 'Ring end gap, top', 'ring-top', of.ringGaps.top),
    gap('ring-gap-second', 'Ring end gap, second', 'ring-second', of.ringGaps.second),
    gap('ring-gap-oil-upper', 'Ring end gap, upper oil rail', 'ring-oil', of.ringGaps.oil),
    gap('ring-gap-oil-lower', 'Ring end gap, lower oil rail', 'ring-oil', of.ringGaps.oil),
    side('ring-side-top', 'Ring side clearance, top', 'ring-top', limits([0.02, 0.07], [null, 0.12])),
    side('ring-side-second', 'Ring side clearance, second', 'ring-second', limits([0.02, 0.06], [null, 0.11])),
  ];
}

function pinAndRod(of: FourStrokeFigures): readonly DimensionFigures[] {
  const { pin } = of;
  const small = { instrument: 'small-hole gauge', page: 'p. 13', plausible: [pin - 0.3, pin + 0.4] as const };
  return [
    length(
      'pin',
      'Piston pin',
      { type: 'minimum' },
      {
        place: 'pin',
        positions: named([
          ['left', 'left end'],
          ['middle', 'middle'],
          ['right', 'right end'],
        ]),
        limits: only(limits([pin - 0.006, pin], [pin - 0.02, null])),
        instrument: 'micrometer',
        page: 'p. 13',
        plausible: [pin - 0.3, pin + 0.3],
      },
    ),
    length(
      'pin-boss',
      'Pin bosses',
      { type: 'maximum' },
      {
        place: 'piston',
        positions: named([
          ['left', 'left boss'],
          ['right', 'right boss'],
        ]),
        limits: only(limits([pin + 0.002, pin + 0.012], [null, pin + 0.04])),
        ...small,
      },
    ),
    length(
      'small-end',
      'Small end',
      { type: 'maximum' },
      {
        place: 'rod',
        positions: named([
          ['across', 'across'],
          ['along', 'along'],
        ]),
        limits: only(limits([pin + 0.01, pin + 0.025], [null, pin + 0.05])),
        ...small,
      },
    ),
    length('pin-boss-clearance', 'Clearance, boss − pin', difference('pin-boss', 'pin'), {
      place: 'pin',
      limits: only(limits([0.002, 0.018], [null, 0.05])),
      instrument: '',
      page: 'p. 13',
    }),
    length('small-end-clearance', 'Clearance, small end − pin', difference('small-end', 'pin'), {
      place: 'rod',
      limits: only(limits([0.01, 0.031], [null, 0.06])),
      instrument: '',
      page: 'p. 13',
    }),
  ];
}

function bigEndAndCrank(of: FourStrokeFigures): readonly DimensionFigures[] {
  return [
    length(
      'rod-side',
      'Big end, side clearance',
      { type: 'interval' },
      {
        place: 'rod',
        limits: only(limits([0.15, 0.45], [null, 0.7])),
        instrument: 'feeler set',
        decimals: 2,
        page: 'p. 20',
      },
    ),
    length(
      'rod-radial',
      'Big end, radial play',
      { type: 'felt' },
      {
        place: 'rod',
        limits: only(standardOnly(null, 0)),
        instrument: 'by hand',
        decimals: 0,
        page: 'p. 20',
        caution: 'Side to side is normal; any play felt up and down at the big end fails.',
      },
    ),
    ...(['left', 'right'] as const).map((end) =>
      length(
        `crank-runout-${end}`,
        `Crank runout, ${end}`,
        { type: 'single' },
        {
          place: 'crank',
          limits: only(upTo(0.03, 0.05)),
          instrument: 'dial indicator',
          page: 'p. 21',
          plausible: [0, 1],
        },
      ),
    ),
    crankEndFloat({ limits: of.endFloat, page: 'p. 21' }),
  ];
}

/** The whole sheet of a four-stroke single with four valves, in the order in which it is measured. */
export function fourStrokeDimensions(of: FourStrokeFigures): readonly DimensionFigures[] {
  const outside = { place: 'engine', positions: named([['at', 'at the plug hole']]), inside: false, page: 'p. 5' };
  return [
    ...boreDimensions({ ...of.bore, shape: upTo(0.01, 0.03), page: 'p. 10' }),
    ...pistonAndRings(of),
    ...pinAndRod(of),
    ...bigEndAndCrank(of),
    ...headAndValves(of),
    ...camsAndChain(of),
    {
      ...length(
        'compression',
        'Compression, cranking',
        { type: 'single' },
        { ...outside, limits: only(of.compression), instrument: 'compression gauge' },
      ),
      kind: 'pressure',
      unit: 'kPa',
      decimals: 0,
    },
    {
      ...length(
        'leak-down',
        'Leak-down at top dead centre',
        { type: 'single' },
        {
          ...outside,
          limits: only(of.leakDown),
          instrument: 'leak-down gauge',
          caution: 'Hold the crank: the air turns the engine.',
        },
      ),
      kind: 'ratio',
      unit: '%',
      decimals: 1,
    },
  ];
}
