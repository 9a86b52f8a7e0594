import {
  type DimensionFigures,
  difference,
  type LimitFigures,
  length,
  limits,
  named,
  sixWays,
  standardOnly,
  stated,
  upTo,
} from '../spec-sheet.ts';
import { type FourStrokeFigures, fourValves } from './four-stroke-figures.ts';

const only = (standard: LimitFigures): Readonly<Record<string, LimitFigures>> => ({ standard });
const threeHeights = named([
  ['top', 'top'],
  ['middle', 'middle'],
  ['bottom', 'bottom'],
]);
const sixOnAStem = named([
  ['top-x', 'top, across'],
  ['top-y', 'top, along'],
  ['middle-x', 'middle, across'],
  ['middle-y', 'middle, along'],
  ['bottom-x', 'bottom, across'],
  ['bottom-y', 'bottom, along'],
]);

function valveDimensions(of: FourStrokeFigures): readonly DimensionFigures[] {
  return fourValves.flatMap(([code, name, side]): readonly DimensionFigures[] => {
    const stem = of.stem[side];
    const common = { place: `valve-${code}`, page: 'p. 16' };
    return [
      length(
        `guide-${code}`,
        `Guide, ${name}`,
        { type: 'maximum' },
        {
          ...common,
          positions: threeHeights,
          limits: only(limits([stem + 0.02, stem + 0.032], [null, stem + 0.06])),
          instrument: 'small-hole gauge',
          plausible: [stem - 0.2, stem + 0.4],
        },
      ),
      length(
        `stem-${code}`,
        `Stem, ${name}`,
        { type: 'minimum' },
        {
          ...common,
          positions: sixOnAStem,
          limits: only(limits([stem - 0.015, stem], [stem - 0.03, null])),
          instrument: 'micrometer',
          plausible: [stem - 0.3, stem + 0.2],
        },
      ),
      length(`stem-clearance-${code}`, `Stem clearance, ${name}`, difference(`guide-${code}`, `stem-${code}`), {
        ...common,
        limits: only(limits([0.02, 0.047], [null, 0.08])),
        instrument: '',
      }),
      length(
        `valve-runout-${code}`,
        `Stem runout, ${name}`,
        { type: 'single' },
        { ...common, limits: only(upTo(0.01, 0.05)), instrument: 'dial indicator', plausible: [0, 1] },
      ),
      length(
        `seat-width-${code}`,
        `Seat contact width, ${name}`,
        { type: 'maximum' },
        {
          ...common,
          positions: named([['widest', 'at its widest']]),
          limits: only(limits([0.9, 1.1], [null, 1.6])),
          instrument: 'caliper',
          decimals: 2,
        },
      ),
      length(
        `lash-${code}`,
        `Lash, ${name}`,
        { type: 'interval' },
        {
          ...common,
          page: 'p. 8',
          limits: only(of.lash[side]),
          instrument: 'feeler set',
          decimals: 2,
          plausible: [0, 1],
          caution: of.lashAt,
        },
      ),
    ];
  });
}

/** What is left above the piston, for the ratio after a face is cut. */
function headHeightAndChamber(of: FourStrokeFigures): readonly DimensionFigures[] {
  const { volume, gasket, deck } = of.chamber;
  const atHead = { place: 'head', page: 'p. 15' };
  const [height, least] = of.headHeight;
  return [
    length(
      'head-height',
      'Head height, face to cover face',
      { type: 'minimum' },
      {
        ...atHead,
        positions: named([
          ['left', 'left end'],
          ['right', 'right end'],
        ]),
        limits: only(limits([height - 0.05, height + 0.05], [least, null])),
        instrument: 'caliper',
        decimals: 2,
        plausible: [height - 2, height + 1],
      },
    ),
    stated('chamber-volume', 'Chamber, plug in', { value: volume, kind: 'volume', unit: 'cm3', decimals: 1 }, atHead),
    stated('head-gasket', 'Head gasket, pressed', { value: gasket, kind: 'length', unit: 'mm', decimals: 2 }, atHead),
    stated(
      'deck',
      'Deck, piston below the cylinder’s top',
      { value: deck, kind: 'length', unit: 'mm', decimals: 2 },
      { place: 'cylinder', page: 'p. 15' },
    ),
  ];
}

export function headAndValves(of: FourStrokeFigures): readonly DimensionFigures[] {
  const springs = (['intake', 'exhaust'] as const).flatMap((side): readonly DimensionFigures[] => [
    length(
      `spring-free-${side}`,
      `Valve springs, free length, ${side}`,
      { type: 'minimum' },
      {
        place: `springs-${side}`,
        page: 'p. 17',
        positions: named([
          ['left', 'left'],
          ['right', 'right'],
        ]),
        limits: only(limits([of.springFree, null], [of.springFree - 1.2, null])),
        instrument: 'caliper',
        decimals: 2,
      },
    ),
    {
      ...length(
        `spring-load-${side}`,
        `Valve springs, load at fitted length, ${side}`,
        { type: 'minimum' },
        {
          place: `springs-${side}`,
          page: 'p. 17',
          positions: named([
            ['left', 'left'],
            ['right', 'right'],
          ]),
          limits: only(limits(of.springLoad, [Number(of.springLoad[0]) * 0.92, null])),
          instrument: 'spring tester',
          caution: 'Springs under load: eye protection.',
        },
      ),
      kind: 'force',
      unit: 'N',
      decimals: 1,
    },
  ]);
  const face = (code: string, name: string, at: string): DimensionFigures =>
    length(
      code,
      name,
      { type: 'maximum' },
      {
        place: at,
        positions: sixWays,
        limits: only(upTo(0.03, 0.05)),
        instrument: 'feeler set',
        decimals: 2,
        page: 'p. 15',
      },
    );
  return [
    face('head-face', 'Head face, flatness', 'head'),
    face('cylinder-face', 'Cylinder face, flatness', 'cylinder'),
    ...headHeightAndChamber(of),
    ...valveDimensions(of),
    ...springs,
  ];
}

function chain(of: FourStrokeFigures): readonly DimensionFigures[] {
  const [chainNew, chainWorn] = of.chain;
  return [
    length(
      'chain-length',
      'Cam chain, 20 links at 50 N',
      { type: 'single' },
      {
        place: 'cam-chain',
        limits: only(limits([chainNew - 0.3, chainNew + 0.3], [null, chainWorn])),
        instrument: 'caliper',
        decimals: 2,
        page: 'p. 19',
      },
    ),
    stated(
      'chain-new',
      'Cam chain when new, 20 links',
      { value: chainNew, kind: 'length', unit: 'mm', decimals: 2 },
      { place: 'cam-chain', page: 'p. 19' },
    ),
    length('chain-longer', 'Cam chain, longer than new', difference('chain-length', 'chain-new'), {
      place: 'cam-chain',
      limits: {},
      instrument: '',
      decimals: 2,
      page: 'p. 19',
    }),
    {
      ...length(
        'chain-stretch',
        'Cam chain, stretch',
        { type: 'ratio', numerator: 'chain-longer', denominator: 'chain-new' },
        { place: 'cam-chain', limits: only(upTo(0.3, of.stretch)), instrument: '', page: 'p. 19' },
      ),
      kind: 'ratio',
      unit: '%',
      decimals: 2,
    },
  ];
}

export function camsAndChain(of: FourStrokeFigures): readonly DimensionFigures[] {
  const { base } = of.lift;
  const cams = (['intake', 'exhaust'] as const).flatMap((side): readonly DimensionFigures[] => {
    const lobe = base + of.lift[side];
    const common = { place: `cam-${side}`, instrument: 'micrometer', page: 'p. 18' };
    const widths = named([
      ['inner', 'inner width'],
      ['outer', 'outer width'],
    ]);
    return [
      length(
        `cam-lobe-${side}`,
        `Cam lobe, ${side}`,
        { type: 'minimum' },
        {
          ...common,
          positions: widths,
          limits: only(limits([lobe - 0.05, lobe + 0.05], [lobe - 0.15, null])),
          plausible: [lobe - 1, lobe + 1],
        },
      ),
      length(
        `cam-base-${side}`,
        `Cam base circle, ${side}`,
        { type: 'mean' },
        {
          ...common,
          positions: widths,
          limits: only(standardOnly(base - 0.05, base + 0.05)),
          plausible: [base - 1, base + 1],
        },
      ),
      length(`cam-lift-${side}`, `Lift, ${side}`, difference(`cam-lobe-${side}`, `cam-base-${side}`), {
        ...common,
        instrument: '',
        limits: only(limits([of.lift[side] - 0.06, null], [of.lift[side] - 0.15, null])),
      }),
      length(
        `cam-cap-${side}`,
        `Cam caps, ${side}`,
        { type: 'maximum' },
        {
          ...common,
          instrument: 'small-hole gauge',
          positions: named([
            ['left', 'left cap'],
            ['right', 'right cap'],
          ]),
          limits: only(limits([of.journal, of.journal + 0.021], [null, of.journal + 0.05])),
          plausible: [of.journal - 0.5, of.journal + 0.5],
        },
      ),
      length(
        `cam-journal-${side}`,
        `Cam journals, ${side}`,
        { type: 'minimum' },
        {
          ...common,
          positions: named([
            ['left', 'left journal'],
            ['right', 'right journal'],
          ]),
          limits: only(limits([of.journal - 0.041, of.journal - 0.02], [of.journal - 0.06, null])),
          plausible: [of.journal - 0.5, of.journal + 0.5],
        },
      ),
      length(
        `cam-clearance-${side}`,
        `Oil clearance, cam ${side}`,
        difference(`cam-cap-${side}`, `cam-journal-${side}`),
        { ...common, instrument: '', limits: only(limits([0.02, 0.062], [null, 0.1])) },
      ),
      length(
        `cam-runout-${side}`,
        `Cam runout, ${side}`,
        { type: 'single' },
        { ...common, instrument: 'dial indicator', limits: only(upTo(0.02, 0.04)), plausible: [0, 1] },
      ),
    ];
  });
  return [...cams, ...chain(of)];
}
