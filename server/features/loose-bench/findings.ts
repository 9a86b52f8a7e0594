import type { Print } from '#contracts/figures.ts';
import type { LooseFindings, LooseFindingsFound } from '#contracts/loose-bench.ts';
import type { Bounds, DimensionDefinition, Limits, Method } from '#domain/metrology/dimension.ts';
import { evaluateDimensions } from '#domain/metrology/evaluate.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation, Reading } from '#domain/metrology/reading.ts';
import { sheetFaults } from '#domain/metrology/sheet-faults.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import { coarsestOf } from '#domain/units/printed-figures.ts';
import { type BaseQuantity, baseQuantity, type QuantityKind } from '#domain/units/quantity.ts';
import { findingOnWire } from '#features/findings/judging/service.ts';
import { limitsOnWire, standardClass } from '#features/specs/service.ts';
import { ProblemError } from '#platform/problem.ts';
import { quantityAt, quantityIf, refuse, unitAt } from './body.ts';
import { looseCrossChecks, looseQuestions } from './checks.ts';

type Asked = LooseFindings;
type AskedDimension = Asked['dimensions'][number];
type AskedInstrument = Asked['instruments'][number];
type AskedReading = Asked['readings'][number];

const kindOf = ({ kind }: Pick<AskedDimension, 'kind'>): QuantityKind => kind ?? 'length';

function ratioOf(asked: AskedDimension, index: number, body: Asked): Method {
  const { numerator, denominator, scale } = asked;
  if (numerator === undefined || denominator === undefined) {
    return refuse(`/dimensions/${index}/method`, 'A ratio names its numerator and its denominator.');
  }
  const below = body.dimensions.find(({ code }) => code === denominator);
  if (below === undefined) return refuse(`/dimensions/${index}/denominator`, `There is no dimension ${denominator}.`);
  const at = quantityIf(scale, kindOf(below), `/dimensions/${index}/scale`);
  return { type: 'ratio', numerator, denominator, ...(at === undefined ? {} : { scale: at }) };
}

function methodOf(asked: AskedDimension, index: number, body: Asked): Method {
  const rule = asked.boreRule ?? 'per-level';
  const pointer = `/dimensions/${index}/method`;
  switch (asked.method) {
    case 'size':
    case 'out-of-round':
    case 'taper':
      return { type: asked.method, rule };
    case 'difference':
      if (asked.minuend === undefined || asked.subtrahend === undefined) {
        return refuse(pointer, 'A difference names its minuend and its subtrahend.');
      }
      return { type: 'difference', minuend: asked.minuend, subtrahend: asked.subtrahend };
    case 'ratio':
      return ratioOf(asked, index, body);
    case 'stated':
      if (asked.stated === undefined) return refuse(pointer, 'A stated dimension gives the figure that is stated.');
      return { type: 'stated', value: quantityAt(asked.stated, kindOf(asked), `/dimensions/${index}/stated`) };
    default:
      return { type: asked.method };
  }
}

function boundsOf(
  asked:
    | {
        readonly low?: { value: string; unit: string } | undefined;
        readonly high?: { value: string; unit: string } | undefined;
      }
    | undefined,
  kind: QuantityKind,
  pointer: string,
): Bounds {
  const low = quantityIf(asked?.low, kind, `${pointer}/low`);
  const high = quantityIf(asked?.high, kind, `${pointer}/high`);
  return { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
}

function limitsOf(code: string, kind: QuantityKind, { limits }: Asked): Limits {
  const index = limits.findIndex(({ dimension }) => dimension === code);
  const asked = limits[index];
  return {
    standard: boundsOf(asked?.standard, kind, `/limits/${index}/standard`),
    service: boundsOf(asked?.service, kind, `/limits/${index}/service`),
  };
}

const positionOf = ({ position }: AskedReading): string => position ?? '1';

function definitionOf(asked: AskedDimension, index: number, body: Asked): DimensionDefinition {
  const kind = kindOf(asked);
  const read = [...new Set(body.readings.filter(({ dimension }) => dimension === asked.code).map(positionOf))];
  const positions: NonNullable<AskedDimension['positions']> = asked.positions ?? read.map((code) => ({ code }));
  const { material, readingsOf, plausible } = asked;
  const at = `/dimensions/${index}/plausible`;
  return {
    code: asked.code,
    name: asked.name ?? asked.code,
    kind,
    method: methodOf(asked, index, body),
    positions: positions.map(({ code, level, axis }) => ({
      code,
      ...(level === undefined ? {} : { level }),
      ...(axis === undefined ? {} : { axis }),
    })),
    limits: limitsOf(asked.code, kind, body),
    rule: asked.rule ?? 'iso-14253-1-2017',
    ...(readingsOf === undefined ? {} : { readingsOf }),
    ...(plausible === undefined
      ? {}
      : {
          plausible: {
            nominal: quantityAt(plausible.nominal, kind, `${at}/nominal`),
            span: quantityAt(plausible.span, kind, `${at}/span`),
          },
        }),
    ...(material === undefined
      ? {}
      : {
          material: {
            alphaPerKelvin: material.expansionPerKelvin,
            alphaUncertaintyPerKelvin: material.uncertaintyPerKelvin ?? 0,
          },
        }),
  };
}

function instrumentOf(asked: AskedInstrument, index: number): Instrument {
  const kind = asked.quantityKind ?? 'length';
  const at = (field: string) => `/instruments/${index}/${field}`;
  const local = quantityIf(asked.localUncertainty, kind, at('localUncertainty'));
  const { repeatability, range, blades } = asked;
  const dof = repeatability?.degreesOfFreedom;
  return {
    code: asked.code,
    kind: '',
    kindOfQuantity: kind,
    resolution: quantityAt(asked.resolution, kind, at('resolution')),
    mpe: quantityAt(asked.maximumPermissibleError, kind, at('maximumPermissibleError')),
    zeroError: quantityIf(asked.zeroError, kind, at('zeroError')) ?? 0,
    masterUncertainty: quantityIf(asked.masterUncertainty, kind, at('masterUncertainty')) ?? 0,
    ...(local === undefined ? {} : { localUncertainty: local }),
    ...(repeatability === undefined
      ? {}
      : {
          repeatability: {
            sd: quantityAt(repeatability.standardDeviation, kind, at('repeatability/standardDeviation')),
            ...(dof === undefined ? {} : { degreesOfFreedom: dof }),
          },
        }),
    ...(range === undefined
      ? {}
      : {
          range: {
            low: quantityAt(range.low, kind, at('range/low')),
            high: quantityAt(range.high, kind, at('range/high')),
          },
        }),
    ...(asked.expansionPerKelvin === undefined ? {} : { alphaPerKelvin: asked.expansionPerKelvin }),
    ...(asked.expansionUncertaintyPerKelvin === undefined
      ? {}
      : { alphaUncertaintyPerKelvin: asked.expansionUncertaintyPerKelvin }),
    ...(asked.calibrationDue === undefined ? {} : { calibrationDue: asked.calibrationDue }),
    ...(blades === undefined
      ? {}
      : {
          blades: blades.map(({ thickness, tolerance }, blade) => ({
            thickness: quantityAt(thickness, kind, at(`blades/${blade}/thickness`)),
            tolerance: quantityAt(tolerance, kind, at(`blades/${blade}/tolerance`)),
          })),
        }),
  };
}

function stackOf(text: string, of: { unit: string; kind: QuantityKind; pointer: string }) {
  const blades = text.split('+').map((value) => quantityAt({ value, unit: of.unit }, of.kind, of.pointer));
  const total = baseQuantity(
    of.kind,
    blades.reduce<number>((sum, blade) => sum + blade, 0),
  );
  return { total, stack: blades.length > 1 ? blades : undefined };
}

function observationOf(asked: AskedReading, kind: QuantityKind, pointer: string): Observation {
  const given = [asked.value, asked.interval, asked.felt].filter((one) => one !== undefined);
  if (given.length !== 1) return refuse(pointer, 'Give one of value, interval and felt.');
  if (asked.felt !== undefined) return { type: 'felt', present: asked.felt };
  if (asked.interval === undefined) {
    const value = quantityIf(asked.value, kind, `${pointer}/value`);
    return value === undefined ? refuse(pointer, 'Give a value.') : { type: 'value', value };
  }
  const { go, noGo, unit } = asked.interval;
  const none: { total: BaseQuantity; stack: undefined } = { total: baseQuantity(kind, 0), stack: undefined };
  const below = go === null ? none : stackOf(go, { unit, kind, pointer: `${pointer}/interval/go` });
  const above = noGo === null ? undefined : stackOf(noGo, { unit, kind, pointer: `${pointer}/interval/noGo` });
  return {
    type: 'interval',
    low: below.total,
    high: above?.total ?? null,
    ...(below.stack === undefined ? {} : { goStack: below.stack }),
    ...(above?.stack === undefined ? {} : { noGoStack: above.stack }),
  };
}

function readingsOf(
  { readings, dimensions }: Pick<Asked, 'readings' | 'dimensions'>,
  field = 'readings',
): readonly Reading[] {
  const counted = new Map<string, number>();
  return readings.map((asked, index) => {
    const pointer = `/${field}/${index}`;
    const dimension = dimensions.find(({ code }) => code === asked.dimension);
    if (dimension === undefined) return refuse(`${pointer}/dimension`, `There is no dimension ${asked.dimension}.`);
    const position = positionOf(asked);
    const place = JSON.stringify([asked.dimension, position]);
    const repeat = asked.repeat ?? (counted.get(place) ?? 0) + 1;
    counted.set(place, repeat);
    const part = quantityIf(asked.partTemperature, 'temperature', `${pointer}/partTemperature`);
    const gauge = quantityIf(asked.instrumentTemperature, 'temperature', `${pointer}/instrumentTemperature`);
    const warm = part ?? gauge;
    return {
      dimension: asked.dimension,
      position,
      repeat,
      observation: observationOf(asked, kindOf(dimension), pointer),
      ...(asked.instrument === undefined ? {} : { instrument: asked.instrument }),
      ...(warm === undefined
        ? {}
        : {
            temperature: {
              part: part ?? warm,
              instrument: gauge ?? warm,
              uncertaintyKelvin: asked.temperatureUncertainty ?? 0,
            },
          }),
    };
  });
}

/** A sheet that contradicts itself is refused at its first fault, with every one told. */
function refuseFaults(body: Asked, sheet: readonly DimensionDefinition[]): void {
  const faults = sheetFaults(sheet).filter(({ reason }) => reason !== 'positions-do-not-fit');
  const [first] = faults;
  if (first === undefined) return;
  const errors = faults.map(({ dimension, field, words }) => {
    const index = body.dimensions.findIndex(({ code }) => code === dimension);
    const limits = body.limits.findIndex((each) => each.dimension === dimension);
    const at = field === 'limits' ? `/limits/${limits}` : `/dimensions/${index}/${field}`;
    return { pointer: at, detail: `${dimension}: ${words}` };
  });
  throw new ProblemError('refused', `At ${errors[0]?.pointer}: ${first.dimension}: ${first.words}`, { errors });
}

/** In which unit and with how many decimals a dimension's figures are answered. */
export function printAsked(body: Asked, index: number): Print {
  const asked = body.dimensions[index];
  const kind = asked === undefined ? 'length' : kindOf(asked);
  return { unit: unitAt(asked?.unit ?? 'mm', kind, `/dimensions/${index}/unit`), decimals: asked?.decimals ?? 3 };
}

/** The sheet, the register and the readings of a body, or its refusal with the pointer to what is wrong. */
export function looseRound(body: Asked) {
  const codes = body.dimensions.map(({ code }) => code);
  const twice = codes.findIndex((code, index) => codes.indexOf(code) !== index);
  if (twice >= 0) return refuse(`/dimensions/${twice}/code`, `${codes[twice] ?? ''} is there twice.`);
  const stray = body.limits.findIndex(({ dimension }) => !codes.includes(dimension));
  if (stray >= 0) return refuse(`/limits/${stray}/dimension`, 'There is no such dimension.');
  const sheet = body.dimensions.map((asked, index) => definitionOf(asked, index, body));
  refuseFaults(body, sheet);
  return { sheet, instruments: body.instruments.map(instrumentOf), readings: readingsOf(body) };
}

/** Works out and judges every dimension of a body that carries all it needs. */
export function looseFindings(body: Asked): LooseFindingsFound {
  const { sheet, instruments, readings } = looseRound(body);
  const codes = sheet.map(({ code }) => code);
  const evaluations = evaluateDimensions(codes, { sheet, readings, instruments, on: body.day });
  const results = sheet.flatMap((definition, index) => {
    const evaluation = evaluations[index];
    if (evaluation === undefined) return [];
    return [{ definition, print: printAsked(body, index), evaluation }];
  });
  const { earlierReadings } = body;
  const earlier =
    earlierReadings === undefined
      ? []
      : [{ readings: readingsOf({ ...body, readings: earlierReadings }, 'earlierReadings'), instruments }];
  const printOf = (code: string) => printAsked(body, codes.indexOf(code));
  const round = { asked: body, sheet, readings, instruments, on: body.day, earlier, printOf };
  return {
    questions: looseQuestions(round),
    crossChecks: looseCrossChecks(round),
    findings: results.flatMap(({ definition, print, evaluation }) =>
      evaluation.ok
        ? [
            findingOnWire(evaluation.finding, {
              name: definition.name,
              print,
              limits: limitsOnWire(definition.limits, standardClass, print),
              resolution: coarsestOf(
                instruments.map(({ kindOfQuantity, resolution }) => ({ kind: kindOfQuantity, resolution })),
                definition.kind,
              ),
            }),
          ]
        : [],
    ),
    refused: results.flatMap(({ definition, evaluation }) =>
      evaluation.ok
        ? []
        : [
            {
              dimension: definition.code,
              reason: evaluation.refusal.reason,
              words: refusalText(evaluation.refusal),
            },
          ],
    ),
  };
}
