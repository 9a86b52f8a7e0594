import { isOff, type SectionDepth } from './depth.ts';

/** Which engine, and how far open: all that the compact section is drawn from. */
export interface CompactFacts {
  readonly stroke: 'four-stroke' | 'two-stroke';
  readonly cooling: 'air' | 'water';
  readonly depth: SectionDepth;
  readonly cams: boolean;
  /** Whether finer lines are drawn: only where there are pixels, or millimetres, for them. */
  readonly fine: boolean;
}

/** One outline or circle, filled with ink or with the paper it is drawn on. */
export type Shape =
  | { readonly paint: 'ink' | 'paper'; readonly d: string }
  | { readonly paint: 'ink' | 'paper'; readonly circle: readonly [x: number, y: number, r: number] };

export interface ShapeLayer {
  readonly layer: 'case' | 'piston' | 'cylinder' | 'reed' | 'head' | 'cover' | 'cams';
  readonly shapes: readonly Shape[];
}

/** What the compact section fills: x, y, width, height on its own grid. */
export const compactBox = [4, -1, 60, 64] as const;

const ink = (d: string): Shape => ({ paint: 'ink', d });
const paper = (d: string): Shape => ({ paint: 'paper', d });
const disc = (paint: 'ink' | 'paper', ...circle: readonly [number, number, number]): Shape => ({ paint, circle });
const when = (drawn: boolean, ...shapes: readonly Shape[]): readonly Shape[] => (drawn ? shapes : []);

const at = (value: number): number => Math.round(value * 100) / 100;

function caseShapes({ depth, fine }: CompactFacts): readonly Shape[] {
  const whole = [
    ink('M11 36H41L51 38.5Q54 39 56 41.5L61.5 48Q63 50 62 53Q60.5 57.5 56 59.5L47 63H18Q15 63 14 60Q11 56 11 50Z'),
    disc('paper', 26, 50, 10.4),
    paper('M18 35.8H34V46H18Z'),
  ];
  if (!isOff(depth, 'case'))
    return [
      ...whole,
      disc('ink', 26, 50, 8.2),
      disc('paper', 51, 50, fine ? 4.4 : 4),
      ...when(fine, disc('ink', 51, 50, 2)),
    ];
  return [
    ...whole,
    disc('ink', 26, 50, 5.4),
    disc('paper', 26, 50, 2.8),
    paper('M41.5 42.5L50 43Q53 43.6 55 46L58.4 50Q57.4 54.4 54 56L46 59H40Q44 50 41.5 42.5Z'),
    disc('ink', 50, 50.5, 3.2),
    disc('paper', 50, 50.5, 1.3),
  ];
}

function pistonShapes({ stroke, fine }: CompactFacts): readonly Shape[] {
  const two = stroke === 'two-stroke';
  const half = two ? 4.6 : 7;
  const skirt = 25 + (two ? 11 : 9);
  const [l, r] = [at(26 - half), at(26 + half)];
  return [
    paper('M23.6 31L26.6 46.6A4.8 4.8 0 1 0 33 44.6L28.6 30.6Z'),
    ink('M24.8 31L28 46L31.6 45L27.6 30.6Z'),
    disc('ink', 30, 46.4, 3.6),
    disc('paper', 30, 46.4, 1.5),
    ink(`M${l} 25H${r}V${skirt}H${at(26 + half - 2.2)}V31.4H${at(26 - half + 2.2)}V${skirt}H${l}Z`),
    paper(`M${l} 27H${r}V${fine ? 28 : 28.4}H${l}Z`),
    ...when(fine, paper(`M${l} 29.2H${r}V30H${l}Z`)),
  ];
}

function cylinderShapes({ stroke, cooling }: CompactFacts): readonly Shape[] {
  if (stroke === 'two-stroke')
    return [
      ink('M16 21.6H21V27L10 25.6V22.6L16 23ZM10 32V35.2L16 34.6V35.2H21V31.2ZM31 21.6H36V35.2H34.4V31Q34 29 31 29.4Z'),
    ];
  return [
    ink('M12 21.6H18V38H15.6V35.2H12ZM40 21.6H34V38H36.4V35.2H40Z'),
    cooling === 'air'
      ? ink(
          'M9 21.6H12V23.4H9ZM9 25.4H12V27.2H9ZM9 29.2H12V31H9ZM40 21.6H43V23.4H40ZM40 25.4H43V27.2H40ZM40 29.2H43V31H40Z',
        )
      : paper('M14 24H16V32H14ZM36 24H38V32H36Z'),
  ];
}

function headShapes({ stroke, fine }: CompactFacts): readonly Shape[] {
  if (stroke === 'two-stroke')
    return [
      ink(
        'M15 20.4V17L18.4 11.6Q19.4 10.4 21 10.4H31Q32.6 10.4 33.6 11.6L37 17V20.4H31Q30.4 16 26 16Q21.6 16 21 20.4ZM24 10.4V1H28V10.4ZM22.4 7.4H29.6V9.6H22.4Z',
      ),
      paper('M24 4.2h4v1.4h-4z'),
    ];
  return [
    ink('M12 20.4V10.4H40V20.4H34L26 18.2L18 20.4Z'),
    paper('M20.4 19.8L16.6 10.4H18.6L22.6 19.2ZM31.6 19.8L35.4 10.4H33.4L29.4 19.2Z'),
    ...when(
      fine,
      paper('M12 14Q16.4 14 18 17.6L16.8 18.6Q15 16.6 12 16.6ZM40 14Q35.6 14 34 17.6L35.2 18.6Q37 16.6 40 16.6Z'),
    ),
  ];
}

const coverShapes: readonly Shape[] = [
  ink(
    'M9 9.4V4.4Q9-.6 14-.6H38Q43-.6 43 4.4V9.4H40.4V4.6Q40.4 2 37.8 2H14.2Q11.6 2 11.6 4.6V9.4ZM24.6 2H27.4V9.4H24.6Z',
  ),
];
const camsUnderCover: readonly Shape[] = [disc('ink', 18, 6, 2.8), disc('ink', 34, 6, 2.8)];
const camsInSight: readonly Shape[] = [
  disc('ink', 15, 6.2, 3.6),
  disc('ink', 37, 6.2, 3.6),
  ink('M11.8 4.6L13-.8L18 4.4ZM40.2 4.6L39-.8L34 4.4Z'),
  disc('paper', 15, 6.2, 1.4),
  disc('paper', 37, 6.2, 1.4),
];

/** The section on one 64 grid, cut metal solid, the engine losing height as it's opened; layer by layer, first drawn first. */
export function compactShapes(facts: CompactFacts): readonly ShapeLayer[] {
  const { depth } = facts;
  const two = facts.stroke === 'two-stroke';
  const reed = [
    ink('M37 36L44 27L50 30.4L46 37.6Z'),
    ...when(facts.fine, paper('M41.6 34.6L45.4 29.6L47 30.6L43.4 35.6Z')),
  ];
  const covered = !isOff(depth, 'cover');
  const topped = !two && !isOff(depth, 'head');
  const layers: readonly (ShapeLayer | false)[] = [
    { layer: 'case', shapes: caseShapes(facts) },
    !isOff(depth, 'case') && { layer: 'piston', shapes: pistonShapes(facts) },
    !isOff(depth, 'cylinder') && { layer: 'cylinder', shapes: cylinderShapes(facts) },
    two && { layer: 'reed', shapes: reed },
    !isOff(depth, 'head') && { layer: 'head', shapes: headShapes(facts) },
    topped && covered && { layer: 'cover', shapes: coverShapes },
    topped && facts.cams && { layer: 'cams', shapes: covered ? camsUnderCover : camsInSight },
  ];
  return layers.filter((layer) => layer !== false);
}
