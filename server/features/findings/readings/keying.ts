import { type Print, quantity } from '#contracts/figures.ts';
import type { KeyedReading } from '#contracts/readings.ts';
import type { Quantity } from '#contracts/wire.ts';
import { type Question, questionsAbout } from '#domain/metrology/blunders.ts';
import { gapInterval } from '#domain/metrology/feeler.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import type { Round } from '#domain/obligations/disposition.ts';
import { type ParseRefusal, parseQuantity } from '#domain/units/parse-quantity.ts';
import { type BaseQuantity, baseQuantity, type QuantityKind } from '#domain/units/quantity.ts';
import { findUnitCode, type UnitCode, unitOf, unitsOfKind } from '#domain/units/unit-table.ts';
import type { DimensionOnSheet } from '#features/specs/service.ts';
import { printedIn } from '../judging/finding-wire.ts';
import { instrumentOf, type Measured } from '../judging/material.ts';
import type { InstrumentRow } from '../judging/queries.ts';
import type { Fault, Field } from './faults.ts';

/** A thermometer at the bench is good to half a kelvin (standard uncertainty; common practice, no source). */
const thermometerMk = 500;

/** One reading as a person sent it, with the dimension it names. */
export interface Draft extends KeyedReading {
  readonly round: Round;
  readonly dimension: string;
  readonly confirmReason: string;
}

/** A reading that was understood, not kept yet. */
export interface Understood extends Measured {
  readonly round: Round;
  readonly text: string;
  readonly unit: UnitCode;
  readonly rounded: boolean;
  readonly instrumentId: string | null;
  readonly confirmReason: string;
}

export type Keyed =
  | {
      readonly ok: true;
      readonly reading: Understood;
      /** Asked about; a reason settles them. */
      readonly questions: readonly Fault[];
      /** Said, and kept all the same. */
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly Fault[] };

const fault = (field: Field, code: Fault['code'], detail: string, suggestion?: Quantity): Fault => ({
  field,
  code,
  detail,
  ...(suggestion === undefined ? {} : { suggestion }),
});

function parseFault(refusal: ParseRefusal, field: Field, kind: QuantityKind): Fault {
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
      const asTyped = (unit === 'mm' || unit === 'in') && unit !== question.meantUnit;
      const suggestion = asTyped ? { value: text, unit: question.meantUnit } : quantity(question.suggested, print);
      const than = question.keyedTimes === '25.4' ? 'more' : 'less';
      const meant = `${suggestion.value} ${suggestion.unit}`;
      return fault(
        field,
        'unit-slip',
        `${quoted(text, unit)} is about 25.4 times ${than} than ${dimension.name} can be. Was ${meant} meant, which is ${printedIn(print)(question.suggested)}? Key it anew, or send it again with a reason.`,
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

type Understanding = Pick<Understood, 'observation' | 'low' | 'high' | 'goStack' | 'noGoStack' | 'rounded' | 'text'> & {
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

function intervalSeen(draft: Draft, context: Context): Understand {
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

function observationSeen(draft: Draft, context: Context): Understand {
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

function temperatureOf(given: Quantity | undefined, field: Field) {
  if (given === undefined) return { ok: true, mk: null } as const;
  const parsed = parseQuantity(given.value, given.unit, 'temperature');
  if (!parsed.ok) return { ok: false, fault: { ...parseFault(parsed, field, 'temperature'), field } } as const;
  if (parsed.value < 200_000 || parsed.value > 450_000) {
    return { ok: false, fault: fault(field, 'refused', 'A part on a bench is between −73 and 177 °C.') } as const;
  }
  return { ok: true, mk: parsed.value } as const;
}

function instrumentFor(draft: Draft, dimension: DimensionOnSheet, register: readonly InstrumentRow[]) {
  const field = 'instrumentCode';
  if (dimension.method.type === 'felt') return { ok: true, instrument: undefined } as const;
  const refuse = (code: Fault['code'], detail: string) => ({ ok: false, fault: fault(field, code, detail) }) as const;
  if (draft.instrumentCode === undefined) {
    return refuse('refused', `Say which instrument the reading at ${draft.position} was taken with.`);
  }
  const instrument = register.find(({ code }) => code === draft.instrumentCode);
  if (instrument === undefined) return refuse('not-found', `There is no instrument ${draft.instrumentCode}.`);
  if (instrument.retired) return refuse('refused', `${instrument.code} is out of use. Take another.`);
  if (instrument.kind !== dimension.kind) {
    return refuse(
      'refused',
      `${instrument.code} measures a ${instrument.kind}, but ${dimension.name} is a ${dimension.kind}.`,
    );
  }
  return { ok: true, instrument } as const;
}

const uncheckedWords = (row: InstrumentRow): readonly string[] => {
  if (row.checkId === null) return [`${row.code} was never checked against a master: its zero error is not known.`];
  return row.checkedToday ? [] : [`${row.code} was not checked today; the zero error of its last check is used.`];
};

/**
 * Understands one reading of a known dimension of the sheet: parsed digit by digit, its instrument found, the blunder
 * guards asked. Whether the place is free is for the caller to see.
 */
export function understand(
  draft: Draft,
  { dimension, register }: { readonly dimension: DimensionOnSheet; readonly register: readonly InstrumentRow[] },
  by: {
    readonly fittedPartId: string | null;
    readonly readById: string;
    readonly readByName: string;
    readonly readOn: string;
  },
): Keyed {
  const faults: Fault[] = [];
  if (dimension.readingsOf !== undefined || dimension.method.type === 'difference') {
    const { method } = dimension;
    const from = method.type === 'difference' ? `${method.minuend} and ${method.subtrahend}` : dimension.readingsOf;
    return {
      ok: false,
      faults: [fault('dimension', 'refused', `${dimension.name} is worked out from ${from}: key those.`)],
    };
  }
  if (!dimension.positions.some(({ code }) => code === draft.position)) {
    const known = dimension.positions.map(({ code }) => code).join(', ');
    faults.push(
      fault('position', 'not-found', `${dimension.name} has no position ${draft.position}. It has ${known}.`),
    );
  }
  const tool = instrumentFor(draft, dimension, register);
  if (!tool.ok) faults.push(tool.fault);
  const instrument = tool.ok ? tool.instrument : undefined;
  const unit = draft.unit ?? dimension.unit;
  const seen = observationSeen(draft, { dimension, unit, instrument });
  if (!seen.ok) faults.push(seen.fault);
  const part = temperatureOf(draft.partTemperature, 'partTemperature');
  const gauge = temperatureOf(draft.instrumentTemperature, 'instrumentTemperature');
  for (const temperature of [part, gauge]) if (!temperature.ok) faults.push(temperature.fault);
  if (!seen.ok || !part.ok || !gauge.ok || faults.length > 0) return { ok: false, faults };
  const { questions, warnings, ...facts } = seen.seen;
  const warm = part.mk ?? gauge.mk;
  return {
    ok: true,
    questions,
    warnings: [...warnings, ...(instrument === undefined ? [] : uncheckedWords(instrument))],
    reading: {
      ...facts,
      ...by,
      round: draft.round,
      dimension: dimension.code,
      position: draft.position,
      repeat: draft.repeat,
      unit: findUnitCode(unit) ?? dimension.unit,
      kind: dimension.kind,
      instrumentId: instrument?.id ?? null,
      instrumentCode: instrument?.code ?? null,
      checkId: instrument?.checkId ?? null,
      zeroError: instrument?.zeroError ?? 0,
      masterU: instrument?.masterU ?? 0,
      partMk: warm === null ? null : (part.mk ?? warm),
      instrumentMk: warm === null ? null : (gauge.mk ?? warm),
      temperatureUMk: warm === null ? null : thermometerMk,
      confirmReason: questions.length > 0 ? draft.confirmReason : '',
    },
  };
}
