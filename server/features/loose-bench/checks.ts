import { figure, type Print, quantity } from '#contracts/figures.ts';
import type { CrossCheck } from '#contracts/findings.ts';
import type { LooseFindings, LooseFindingsFound } from '#contracts/loose-bench.ts';
import { benchChecksOf, type RoundToCheck } from '#domain/metrology/bench-checks.ts';
import { type Question, questionsAbout, timesWords } from '#domain/metrology/blunders.ts';
import { benchCheckWords } from '#domain/metrology/cross-check-words.ts';
import { platedCheck } from '#domain/metrology/cross-checks.ts';
import type { DimensionDefinition } from '#domain/metrology/dimension.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';

interface ToCheck extends RoundToCheck {
  readonly asked: LooseFindings;
  readonly printOf: (code: string) => Print;
}

const printedIn = (print: Print) => (value: number) => `${figure(value, print)} ${unitOf(print.unit).symbol}`;

function platedChecks({ asked, sheet, printOf }: ToCheck): readonly CrossCheck[] {
  return asked.dimensions.flatMap(({ code, plated = false, about }): readonly CrossCheck[] => {
    const check = about === undefined ? undefined : platedCheck(plated, about);
    const name = sheet.find((one) => one.code === code)?.name ?? code;
    if (check === undefined) return [];
    return [
      { agrees: false, words: benchCheckWords(check, { name, printed: printedIn(printOf(code)) }), about: [code] },
    ];
  });
}

/** One measurement held against another, as at a job's bench. */
export function looseCrossChecks(round: ToCheck): CrossCheck[] {
  const { asked, readings, instruments, printOf } = round;
  const names = new Set(asked.readings.flatMap(({ readBy }) => (readBy === undefined ? [] : [readBy])));
  const people = [...names].map((name) => ({
    name,
    readings: readings.filter((_, index) => asked.readings[index]?.readBy === name),
    instruments,
  }));
  const checks = benchChecksOf({ ...round, people });
  return [
    ...checks.map(({ check, name, printedAs, about }) => ({
      agrees: check.agrees,
      words: benchCheckWords(check, { name, printed: printedIn(printOf(printedAs)) }),
      about: [...about],
    })),
    ...platedChecks(round),
  ];
}

const typed = ({ value, unit }: { readonly value: string; readonly unit: string }): string => `${value} ${unit}`;

function questionWords(question: Question, keyed: string, of: { definition: DimensionDefinition; print: Print }) {
  const { definition, print } = of;
  const say = printedIn(print);
  switch (question.code) {
    case 'unit-slip':
      return `${keyed} is ${timesWords(question.keyedTimes)} than ${definition.name} can be. Was ${unitOf(question.meantUnit).symbol} meant, which is ${say(question.suggested)}?`;
    case 'decimal-slip':
      return `${keyed} is ${timesWords(question.keyedTimes)} than ${definition.name} can be. Is the decimal point where it belongs? ${say(question.suggested)} would do.`;
    case 'implausible':
      return `${keyed} is hardly possible for ${definition.name}: it lies between ${say(question.low)} and ${say(question.high)}. Measure again.`;
    case 'too-many-decimals':
      return `${keyed} has ${question.keyed} decimals; the instrument shows ${question.meaningful}.`;
  }
}

/** What is asked about each reading by itself; nothing is refused for it. */
export function looseQuestions({ asked, sheet, instruments, printOf }: ToCheck): LooseFindingsFound['questions'] {
  return asked.readings.flatMap(({ dimension, value, instrument }, index) => {
    const definition = sheet.find(({ code }) => code === dimension);
    const unit = value === undefined ? undefined : findUnitCode(value.unit);
    if (definition === undefined || value === undefined || unit === undefined) return [];
    const parsed = parseQuantity(value.value, value.unit, definition.kind);
    if (!parsed.ok) return [];
    const resolution = instruments.find(({ code, blades }) => code === instrument && blades === undefined)?.resolution;
    const print = printOf(dimension);
    return questionsAbout(
      { kind: definition.kind, value: parsed.value, unit, decimals: parsed.decimals },
      {
        ...(definition.plausible === undefined ? {} : { plausible: definition.plausible }),
        ...(resolution === undefined ? {} : { resolution }),
      },
    ).map((question) => ({
      reading: index,
      code: question.code,
      words: questionWords(question, typed(value), { definition, print }),
      suggestion:
        question.code === 'unit-slip' || question.code === 'decimal-slip' ? quantity(question.suggested, print) : null,
    }));
  });
}
