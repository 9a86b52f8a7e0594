import { type Print, quantity } from '#contracts/figures.ts';
import type { KeyedReading } from '#contracts/readings.ts';
import type { Quantity } from '#contracts/wire.ts';
import { type Question, questionsAbout, timesWords } from '#domain/metrology/blunders.ts';
import { gapInterval } from '#domain/metrology/feeler.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import { type ParseRefusal, parseQuantity } from '#domain/units/parse-quantity.ts';
import { type BaseQuantity, baseQuantity, type QuantityKind } from '#domain/units/quantity.ts';
import { findUnitCode, type UnitCode, unitCodeOf, unitOf, unitsOfKind } from '#domain/units/unit-table.ts';
import type { DimensionOnSheet } from '#features/specs/service.ts';
import { printedIn } from '../judging/finding-wire.ts';
import { instrumentOf, type Measured } from '../judging/material.ts';
import type { InstrumentRow } from '../judging/queries.ts';
import type { Fault, Field } from './faults.ts';

export const fault = (field: Field, code: Fault['code'], detail: string, suggestion?: Quantity): Fault => ({
  field,
  code,
  detail,
  ...(suggestion === undefined ? {} : { suggestion }),
});

export function parseFault(refusal: ParseRefusal, field: Field, kind: QuantityKind): Fault {
  const fitting = unitsOfKind(kind).join(', ');
  switch (refusal.reason) {
    case 'unknown-unit':
      return fault('unit', 'unit-wrong', `There is no unit "${refusal.unit}". A ${kind} is keyed in ${fitting}.`);
    case 'unit-of-another-kind':
      return fault('unit', 'unit-wrong', `${refusal.unit} does not measure a ${kind}. Key it in ${fitting}.`);
    case 'not-a-number':
      return fault(field, 'refused', `"${refusal.text}" is not a number.`);
    case 'ambiguous-separator':
      return fault(field, 'refused', `"${refusal.text}" could be read two ways: key one decimal point or comma only.`);
    case 'fraction-not-allowed':
      return fault(field, 'refused', `"${refusal.text}": fractions are of an inch, with 2, 4, 8 to 128 below.`);
    case 'below-absolute-zero':
      return fault(field, 'refused', 'That is below absolute zero.');
    case 'too-large':
      return fault(field, 'refused', 'That figure is too large.');
  }
}

const quoted = (text: string, unit: UnitCode): string => `${text} ${unitOf(unit).symbol}`.trimEnd();

interface Asked {
  readonly text: string;
  readonly unit: UnitCode;
  readonly dimension: DimensionOnSheet;
  readonly field: Field;
}

/** What to say of a blunder guard's question: a fault that a reason settles, or words only. */
function questionSaid(question: Question, { text, unit, dimension, field }: Asked): Fault | string {
  const print: Print = dimension;
  switch (question.code) {
    case 'unit-slip': {
      const asTyped = unit !== question.meantUnit;
      const suggestion = asTyped ? { value: text, unit: question.meantUnit } : quantity(question.suggested, print);
      const meant = quoted(suggestion.value, unitCodeOf(suggestion.unit));
      return fault(
        field,
        'unit-slip',
        `${quoted(text, unit)} is ${timesWords(question.keyedTimes)} than ${dimension.name} can be. Was ${meant} meant, which is ${printedIn(print)(question.suggested)}? Key it anew, or send it again with a reason.`,
        suggestion,
      );
    }
    case 'decimal-slip': {
      const suggestion = quantity(question.suggested, { unit, decimals: print.decimals });
      return fault(
        field,
        'implausible',
        `${quoted(text, unit)} is ${timesWords(question.keyedTimes)} than ${dimension.name} can be. Is the decimal point where it belongs? Was ${quoted(suggestion.value, unit)} meant? Key it anew, or send it again with a reason.`,
        suggestion,
      );
    }
    case 'implausible': {
      const say = printedIn(print);
      return fault(
        field,
        'implausible',
        `${quoted(text, unit)} is hardly possible for ${dimension.name}: it lies between ${say(question.low)} and ${say(question.high)}. Measure again, or send it again with a reason.`,
      );
    }
    case 'too-many-decimals':
      return `${quoted(text, unit)} has ${question.keyed} decimals; the instrument shows ${question.meaningful}.`;
  }
}

type Understanding = Pick<Measured, 'observation' | 'low' | 'high' | 'goStack' | 'noGoStack'> & {
  readonly text: string;
  readonly rounded: boolean;
} & {
  readonly questions: readonly Fault[];
  readonly warnings: readonly string[];
};
type Understand = { readonly ok: true; readonly seen: Understanding } | { readonly ok: false; readonly fault: Fault };

interface Context {
  readonly dimension: DimensionOnSheet;
  readonly unit: string;
  readonly instrument: InstrumentRow | undefined;
}

const plausibleOf = ({ kind, nominal, plausibleSpan }: DimensionOnSheet) =>
  nominal === null || plausibleSpan === null
    ? {}
    : { plausible: { nominal: baseQuantity(kind, nominal), span: baseQuantity(kind, plausibleSpan) } };

/** Reads one figure and asks the blunder guards about it. */
function figureSeen(text: string, field: Field, { dimension, unit, instrument }: Context) {
  const parsed = parseQuantity(text, unit, dimension.kind);
  if (!parsed.ok) return { ok: false, fault: parseFault(parsed, field, dimension.kind) } as const;
  const code = findUnitCode(unit) ?? dimension.unit;
  const known = {
    ...plausibleOf(dimension),
    ...(instrument === undefined || instrument.blades.length > 0 ? {} : { resolution: instrument.resolution }),
  };
  const said = questionsAbout(
    { kind: dimension.kind, value: parsed.value, unit: code, decimals: parsed.decimals },
    known,
  ).map((question) => questionSaid(question, { text: text.trim(), unit: code, dimension, field }));
  return {
    ok: true,
    value: parsed.value,
    rounded: parsed.rounded,
    questions: said.filter((one) => typeof one !== 'string'),
    warnings: said.filter((one) => typeof one === 'string'),
  } as const;
}

/** Reads blades laid together, "0.25+0.10", and adds them up. */
function bladesSeen(text: string, field: Field, { dimension, unit }: Context) {
  const stack: BaseQuantity[] = [];
  let rounded = false;
  for (const blade of text.split('+')) {
    const parsed = parseQuantity(blade, unit, dimension.kind);
    if (!parsed.ok) return { ok: false, fault: parseFault(parsed, field, dimension.kind) } as const;
    if (parsed.value <= 0)
      return { ok: false, fault: fault(field, 'refused', `A blade of "${blade}" is none.`) } as const;
    stack.push(parsed.value);
    rounded ||= parsed.rounded;
  }
  const total = stack.reduce<number>((sum, blade) => sum + blade, 0);
  return { ok: true, total, stack: stack.length > 1 ? stack : [], rounded } as const;
}

function intervalSeen(draft: KeyedReading, context: Context): Understand {
  const { go, noGo } = draft.interval ?? { go: null, noGo: null };
  const { dimension, instrument } = context;
  const refuse = (field: Field, detail: string): Understand => ({ ok: false, fault: fault(field, 'refused', detail) });
  if (go === null && noGo === null) return refuse('interval/go', 'Say which blade went in, or which did not.');
  const none = { ok: true, total: 0, stack: [], rounded: false } as const;
  const below = go === null ? none : bladesSeen(go, 'interval/go', context);
  if (!below.ok) return below;
  const above = noGo === null ? none : bladesSeen(noGo, 'interval/noGo', context);
  if (!above.ok) return above;
  const low = below.total;
  const high = noGo === null ? null : above.total;
  if (instrument !== undefined) {
    const base = (value: number) => baseQuantity(dimension.kind, value);
    const gap = gapInterval(
      {
        type: 'interval',
        low: base(low),
        high: high === null ? null : base(high),
        ...(below.stack.length > 0 ? { goStack: below.stack } : {}),
        ...(above.stack.length > 0 ? { noGoStack: above.stack } : {}),
      },
      instrumentOf(instrument, { zeroError: 0, masterU: 0 }),
      draft.position,
    );
    if (!gap.ok) {
      const unknown = gap.refusal.reason === 'blade-not-in-set' ? gap.refusal.thickness : undefined;
      return refuse(unknown === low ? 'interval/go' : 'interval/noGo', refusalText(gap.refusal));
    }
  }
  // The blade that went in is a figure like any other; none went in: the one that did not.
  const asked = figureSeenOfBlade(go === null ? high : low, go === null ? 'interval/noGo' : 'interval/go', context);
  return {
    ok: true,
    seen: {
      observation: 'interval',
      low,
      high,
      goStack: below.stack,
      noGoStack: above.stack,
      rounded: below.rounded || above.rounded,
      text: `${go?.trim() ?? 'none'} / ${noGo?.trim() ?? 'none'}`,
      questions: asked,
      warnings: [],
    },
  };
}

function figureSeenOfBlade(value: number | null, field: Field, { dimension, unit }: Context): readonly Fault[] {
  if (value === null) return [];
  const { kind } = dimension;
  const code = findUnitCode(unit) ?? dimension.unit;
  const text = quantity(value, { unit: code, decimals: dimension.decimals }).value;
  return questionsAbout({ kind, value: baseQuantity(kind, value), unit: code, decimals: 0 }, plausibleOf(dimension))
    .map((question) => questionSaid(question, { text, unit: code, dimension, field }))
    .filter((said) => typeof said !== 'string');
}

function valueSeen(text: string, context: Context): Understand {
  const seen = figureSeen(text, 'text', context);
  if (!seen.ok) return seen;
  const warnings = seen.rounded
    ? [
        ...seen.warnings,
        `${quoted(text.trim(), findUnitCode(context.unit) ?? context.dimension.unit)} is no whole number of base units: it is kept to the nearest.`,
      ]
    : seen.warnings;
  return {
    ok: true,
    seen: {
      observation: 'value',
      low: seen.value,
      high: seen.value,
      goStack: [],
      noGoStack: [],
      rounded: seen.rounded,
      text: text.trim(),
      questions: seen.questions,
      warnings,
    },
  };
}

const feltSeen = (felt: boolean): Understand => ({
  ok: true,
  seen: {
    observation: 'felt',
    low: felt ? 1 : 0,
    high: felt ? 1 : 0,
    goStack: [],
    noGoStack: [],
    rounded: false,
    text: felt ? 'play' : 'none',
    questions: [],
    warnings: [],
  },
});

export function observationSeen(draft: KeyedReading, context: Context): Understand {
  const { dimension } = context;
  const refuse = (field: Field, detail: string): Understand => ({ ok: false, fault: fault(field, 'refused', detail) });
  const given = [draft.text, draft.interval, draft.felt].filter((one) => one !== undefined);
  if (given.length !== 1) return refuse('text', 'Key one of: a figure, a feeler’s blades, or whether play was felt.');
  if (dimension.method.type === 'felt') {
    return draft.felt === undefined
      ? refuse('felt', `${dimension.name} is felt by hand: say whether there is play.`)
      : feltSeen(draft.felt);
  }
  if (draft.felt !== undefined)
    return refuse('felt', `${dimension.name} is measured: key a figure or a feeler’s blades.`);
  if (draft.interval !== undefined) return intervalSeen(draft, context);
  if (dimension.method.type === 'interval') {
    return refuse(
      'interval/go',
      `${dimension.name} is taken with a feeler: key the blade that went in and the one that did not.`,
    );
  }
  return valueSeen(draft.text ?? '', context);
}
