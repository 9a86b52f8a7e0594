import fc from 'fast-check';
import type { Figure, Printed, PrintedDimension, PrintedLimits, SheetDocument } from '#domain/spec-sheet/document.ts';

export const emptySheet: SheetDocument = {
  shape: 1,
  family: { code: 'H355', name: 'Halden 355' },
  note: '',
  figuresInvented: false,
  places: [],
  dimensions: [],
  fasteners: [],
  ringSeparation: null,
  rings: [],
  ringZones: [],
  valves: [],
  proofs: [],
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: a sheet refuses them
const controls = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;
const awkward = fc.constantFrom(
  "'",
  "''",
  '=1+1',
  '+0.25',
  '-',
  '@a',
  'table',
  'TABLE',
  '"',
  'a,b',
  'a;b',
  ' a ',
  '\t',
  'a\nb',
  '"a"',
);
/** Words as somebody might write them, and as nobody would. */
const text = (max: number) =>
  fc
    .oneof(awkward, fc.string({ unit: 'grapheme', maxLength: 12 }), fc.lorem({ maxCount: 4 }))
    .filter((of) => !controls.test(of) && of.length <= max && !of.includes('\uFEFF'));
const someText = (max: number) => text(max).filter((of) => of.trim() !== '');
const code = (max: number) => someText(max).filter((of) => of === of.trim());
const uniquely = <Of extends { readonly code: string }>(of: fc.Arbitrary<Of>, maxLength: number) =>
  fc.uniqueArray(of, { selector: ({ code: one }) => one, maxLength });

const digits = fc
  .tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 4 }))
  .map(([whole, decimals]) => (whole / 10 ** decimals).toFixed(decimals));
const lengthUnit = fc.constantFrom('mm', 'in', 'um', 'thou');
const length: fc.Arbitrary<Printed> = fc.oneof(
  fc.record({ value: digits, unit: lengthUnit }),
  fc.constant({ value: '1 1/2', unit: 'in' }),
);
const torque = fc.record({ value: digits, unit: fc.constantFrom('N.m', 'lbf.ft', 'kgf.cm') });
const angle = fc.record({ value: digits, unit: fc.constant('deg') });
const orNull = <Of>(of: fc.Arbitrary<Of>) => fc.option(of, { nil: null });

const figure: fc.Arbitrary<Figure> = fc.record(
  { value: digits, unit: lengthUnit, source: someText(120), page: someText(40) },
  { requiredKeys: ['value', 'unit'] },
);
const bounds = fc.record({ low: orNull(figure), high: orNull(figure) });
const limits: fc.Arbitrary<PrintedLimits> = fc
  .record({ sizeClass: code(40), standard: bounds, service: bounds })
  .filter(({ standard, service }) =>
    [standard.low, standard.high, service.low, service.high].some((one) => one !== null),
  );

const position = fc.record({
  code: code(40),
  label: text(80),
  level: orNull(fc.integer({ min: 1, max: 50 })),
  axis: orNull(code(20)),
  height: orNull(length),
});

const dimension: fc.Arbitrary<PrintedDimension> = fc.record({
  code: code(60),
  name: someText(80),
  place: code(40),
  kind: fc.constant('length' as const),
  unit: lengthUnit,
  decimals: fc.integer({ min: 0, max: 6 }),
  method: fc.constantFrom('single', 'interval', 'size', 'difference', 'ratio', 'stated'),
  boreRule: orNull(fc.constantFrom('per-level', 'extremes')),
  readingsOf: orNull(code(60)),
  minuend: orNull(code(60)),
  subtrahend: orNull(code(60)),
  numerator: orNull(code(60)),
  denominator: orNull(code(60)),
  scale: orNull(figure),
  stated: orNull(figure),
  rule: fc.constantFrom('iso-14253-1-2017', 'iso-14253-1-1998', 'simple', 'guard-factor-1.3'),
  inside: fc.boolean(),
  nominal: orNull(figure),
  plausibleSpan: orNull(figure),
  instrumentKind: text(40),
  caution: text(300),
  source: text(120),
  page: text(40),
  positions: uniquely(position, 4),
  limits: fc.uniqueArray(limits, { selector: ({ sizeClass }) => sizeClass, maxLength: 3 }),
});

const place = fc.record({
  code: code(40),
  name: someText(80),
  layer: orNull(fc.constantFrom('cover', 'head', 'cylinder', 'case')),
  material: text(60),
  expansion: orNull(fc.constant({ value: '23.5', uncertainty: '1.0' })),
  plated: fc.boolean(),
});

const fasteners = fc.record({
  code: code(40),
  name: text(80),
  thread: text(40),
  propertyClass: text(20),
  condition: fc.constantFrom('dry', 'oiled', 'locking compound'),
  tool: text(80),
  reuse: fc.constantFrom('reuse', 'inspect', 'one-time'),
  orderIsMakers: fc.boolean(),
  source: text(120),
  page: text(40),
  positions: fc.array(fc.record({ x: length, y: length }), { minLength: 1, maxLength: 12 }),
  stages: fc.array(
    fc.oneof(
      torque.map((of) => ({ torque: of, angle: null })),
      angle.map((of) => ({ torque: null, angle: of })),
    ),
    { minLength: 1, maxLength: 4 },
  ),
});

const valve = fc.record({
  code: code(40),
  name: text(80),
  side: fc.constantFrom('intake', 'exhaust'),
  dimension: code(60),
  wanted: length,
  adjuster: fc.constantFrom('shim under bucket', 'shim on bucket', 'screw'),
  shimDiameter: orNull(length),
  shimSizes: orNull(fc.record({ low: length, high: length })),
  screwPitch: orNull(length),
});

/** Any sheet that can be written down, sensible or not; every size class has a figure. */
/** Held by a pin, placed by the maker, or neither; never both. */
const ring = fc
  .record({
    code: code(40),
    name: text(80),
    angle: orNull(angle),
    part: fc.constantFrom('compression', 'spacer', 'rail'),
    pin: orNull(angle),
    mark: text(20),
    faces: fc.constantFrom('crown', 'skirt', 'either'),
  })
  .map((one) => (one.pin === null ? one : { ...one, angle: null }));

export const anySheet: fc.Arbitrary<SheetDocument> = fc.record({
  shape: fc.constant(1 as const),
  family: fc.constant(emptySheet.family),
  note: text(500),
  figuresInvented: fc.boolean(),
  places: uniquely(place, 3),
  dimensions: uniquely(dimension, 4),
  fasteners: uniquely(fasteners, 3),
  ringSeparation: orNull(angle),
  railOffset: orNull(angle),
  rings: uniquely(ring, 4),
  ringZones: fc.uniqueArray(fc.record({ from: angle, to: angle, reason: text(200) }), {
    selector: ({ from, to }) => `${from.value} ${to.value}`,
    maxLength: 3,
  }),
  valves: uniquely(valve, 4),
  proofs: uniquely(
    fc.record({ code: code(40), name: text(80), dimension: orNull(code(60)), words: text(500), caution: text(300) }),
    4,
  ),
});
