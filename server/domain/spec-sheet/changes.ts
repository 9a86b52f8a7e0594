import { usualFaces } from '#domain/build/ring-clock.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import type { QuantityKind } from '#domain/units/quantity.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';
import type { Figure, Printed, PrintedBounds, PrintedDimension, SheetDocument } from './document.ts';

export type SheetPart = 'sheet' | 'place' | 'dimension' | 'fasteners' | 'ring' | 'ring zone' | 'valve' | 'proof';

/** One thing that two spec sheets say differently, in the units in which they are printed. */
export type SheetChange = {
  /** `printed otherwise`: other digits or another unit of the same value. */
  readonly kind: 'added' | 'removed' | 'changed' | 'printed otherwise';
  readonly part: SheetPart;
  /** Its code, and its name on the sheet that has it (the newer one where both have). */
  readonly code: string;
  readonly name: string;
  readonly sizeClass: string | null;
  /** What of it: "standard high", "page", "positions" …; empty: the whole. */
  readonly field: string;
  readonly from: string | null;
  readonly to: string | null;
};

type Said = Omit<SheetChange, 'kind' | 'from' | 'to'> & {
  readonly text: string;
  /** The value in base units, where it is a figure. */
  readonly base: number | undefined;
};

type Subject = Pick<Said, 'part' | 'code' | 'name'>;

const baseOf = ({ value, unit }: Printed, kind: QuantityKind): number | undefined => {
  const parsed = parseQuantity(value, unit, kind);
  return parsed.ok ? parsed.value : undefined;
};

/** What a figure's unit is called on paper; one that is not known as it stands. */
const symbolOf = (unit: string): string => {
  const code = findUnitCode(unit);
  return code === undefined ? unit : unitOf(code).symbol;
};
const printed = ({ value, unit }: Printed): string => {
  const symbol = symbolOf(unit);
  return symbol === '°' ? `${value}${symbol}` : `${value} ${symbol}`.trim();
};
const printedOrNot = (of: Printed | null): string => (of === null ? '' : printed(of));
const whetherOr = (of: boolean): string => (of ? 'yes' : 'no');

const fact = (subject: Subject, field: string, text: string): Said => ({
  ...subject,
  sizeClass: null,
  field,
  text,
  base: undefined,
});

/** Facts of one subject; those that are empty say nothing, the whole is always said. */
const facts = (subject: Subject, of: Readonly<Record<string, string>>): readonly Said[] => [
  fact(subject, '', subject.name),
  ...Object.entries(of)
    .filter(([, text]) => text !== '')
    .map(([field, text]) => fact(subject, field, text)),
];

function figuresOf(subject: Subject, dimension: PrintedDimension): readonly Said[] {
  const figure = (field: string, sizeClass: string | null, of: Figure | null): readonly Said[] => {
    if (of === null) return [];
    const said: Said = { ...subject, sizeClass, field, text: printed(of), base: baseOf(of, dimension.kind) };
    const beside = (name: 'source' | 'page'): readonly Said[] => {
      const text = of[name] ?? '';
      return text === '' ? [] : [{ ...said, field: `${field}, ${name}`, text, base: undefined }];
    };
    return [said, ...beside('source'), ...beside('page')];
  };
  const bounds = (range: string, sizeClass: string, of: PrintedBounds) => [
    ...figure(`${range} low`, sizeClass, of.low),
    ...figure(`${range} high`, sizeClass, of.high),
  ];
  return [
    ...figure('nominal', null, dimension.nominal),
    ...figure('plausible span', null, dimension.plausibleSpan),
    ...figure('stated', null, dimension.stated),
    ...dimension.limits.flatMap(({ sizeClass, standard, service }) => [
      ...bounds('standard', sizeClass, standard),
      ...bounds('service', sizeClass, service),
    ]),
  ];
}

function dimensionSaid(of: PrintedDimension): readonly Said[] {
  const subject: Subject = { part: 'dimension', code: of.code, name: of.name };
  const positions = of.positions.flatMap(({ code, label, level, axis, height }) => [
    fact(
      subject,
      `position ${code}`,
      [label, level === null ? '' : `level ${level}`, axis ?? '', printedOrNot(height)].filter(Boolean).join(', '),
    ),
  ]);
  return [
    ...facts(subject, {
      place: of.place,
      kind: of.kind,
      unit: symbolOf(of.unit),
      decimals: String(of.decimals),
      method: of.method,
      'bore rule': of.boreRule ?? '',
      'readings of': of.readingsOf ?? '',
      minuend: of.minuend ?? '',
      subtrahend: of.subtrahend ?? '',
      numerator: of.numerator ?? '',
      denominator: of.denominator ?? '',
      scale: printedOrNot(of.scale),
      rule: of.rule,
      inside: whetherOr(of.inside),
      instrument: of.instrumentKind,
      caution: of.caution,
      source: of.source,
      page: of.page,
    }),
    ...positions,
    ...figuresOf(subject, of),
  ];
}

const placeSaid = (of: SheetDocument['places'][number]): readonly Said[] =>
  facts(
    { part: 'place', code: of.code, name: of.name },
    {
      layer: of.layer ?? '',
      material: of.material,
      expansion: of.expansion === null ? '' : `${of.expansion.value} ± ${of.expansion.uncertainty} · 10⁻⁶/K`,
      plated: whetherOr(of.plated),
    },
  );

const fastenersSaid = (of: SheetDocument['fasteners'][number]): readonly Said[] =>
  facts(
    { part: 'fasteners', code: of.code, name: of.name },
    {
      thread: of.thread,
      'property class': of.propertyClass,
      condition: of.condition,
      tool: of.tool,
      reuse: of.reuse,
      "maker's order": whetherOr(of.orderIsMakers),
      positions: of.positions.map(({ x, y }) => `${printed(x)}; ${printed(y)}`).join(' / '),
      stages: of.stages.map(({ torque, angle }) => printedOrNot(torque ?? angle)).join(', '),
      source: of.source,
      page: of.page,
    },
  );

const valveSaid = (of: SheetDocument['valves'][number]): readonly Said[] =>
  facts(
    { part: 'valve', code: of.code, name: of.name },
    {
      side: of.side,
      dimension: of.dimension,
      wanted: printed(of.wanted),
      adjuster: of.adjuster,
      'shim diameter': printedOrNot(of.shimDiameter),
      'shim sizes': of.shimSizes === null ? '' : `${printed(of.shimSizes.low)} to ${printed(of.shimSizes.high)}`,
      'screw pitch': printedOrNot(of.screwPitch),
    },
  );

function saidBy(document: SheetDocument): ReadonlyMap<string, Said> {
  const sheet: Subject = { part: 'sheet', code: '', name: '' };
  const all: readonly Said[] = [
    fact(sheet, 'note', document.note),
    fact(sheet, 'figures invented', whetherOr(document.figuresInvented)),
    fact(sheet, 'ring separation', printedOrNot(document.ringSeparation)),
    fact(sheet, 'rail offset', printedOrNot(document.railOffset ?? null)),
    ...document.places.flatMap(placeSaid),
    ...document.dimensions.flatMap(dimensionSaid),
    ...document.fasteners.flatMap(fastenersSaid),
    ...document.rings.flatMap(({ code, name, angle, part, pin, mark, faces }) =>
      facts(
        { part: 'ring', code, name },
        {
          angle: printedOrNot(angle),
          part: part ?? 'compression',
          pin: printedOrNot(pin ?? null),
          mark: mark ?? '',
          faces: faces ?? usualFaces(part ?? 'compression'),
        },
      ),
    ),
    ...document.ringZones.map(({ from, to, reason }) =>
      fact({ part: 'ring zone', code: `${printed(from)} to ${printed(to)}`, name: '' }, '', reason),
    ),
    ...document.valves.flatMap(valveSaid),
    ...document.proofs.flatMap(({ code, name, dimension, words, caution }) =>
      facts({ part: 'proof', code, name }, { dimension: dimension ?? '', words, caution }),
    ),
  ];
  return new Map(
    all
      .filter(({ text }) => text !== '')
      .map((said) => [JSON.stringify([said.part, said.code, said.sizeClass, said.field]), said]),
  );
}

const changeOf = (before: Said | undefined, after: Said | undefined): readonly SheetChange[] => {
  const said = after ?? before;
  if (said === undefined || before?.text === after?.text) return [];
  const { text: _text, base: _base, ...what } = said;
  const both = before !== undefined && after !== undefined;
  const same = both && before.base !== undefined && before.base === after.base;
  const kind = same ? 'printed otherwise' : both ? 'changed' : after === undefined ? 'removed' : 'added';
  return [{ ...what, kind, from: before?.text ?? null, to: after?.text ?? null }];
};

/**
 * What `after` says otherwise than `before`, in the order of `after`, what was removed last. Two figures of one value
 * in other digits or another unit are told apart from a change. Nothing when both say the same.
 */
export function changesBetween(before: SheetDocument, after: SheetDocument): readonly SheetChange[] {
  const [old, now] = [saidBy(before), saidBy(after)];
  return [
    ...[...now].flatMap(([key, said]) => changeOf(old.get(key), said)),
    ...[...old].filter(([key]) => !now.has(key)).flatMap(([, said]) => changeOf(said, undefined)),
  ];
}
