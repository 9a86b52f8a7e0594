import { type Condition, factValues, type ProcedureDocument, type StepInDocument } from './document.ts';

/** What is wrong with a procedure: at which step (counted from 1; null: the whole of it), in which field, in words. */
export interface ProcedureFault {
  readonly pointer: string;
  readonly step: number | null;
  readonly field: string;
  readonly detail: string;
}

/** What the family's newest published sheet has; null: it has none, and then nothing is said against codes. */
export interface SheetCodes {
  readonly dimensions: readonly string[];
  readonly fastenerSets: readonly string[];
}

type Tell = (field: string, detail: string) => void;

/**
 * Everything that keeps a procedure from being published. Errors told: no step; a step without title; two steps asking
 * under one code; a question with fewer than two choices or a choice twice; a condition on a question that no earlier step
 * asks, or on a choice or a value it doesn't have; a piece twice in a step; a dimension or fastener set that the sheet
 * hasn’t; pieces while an engine is proved; a layer that comes off after a deeper one. Cautions are the writer’s:
 * no words are searched for hazards.
 */
export function checkProcedure(document: ProcedureDocument, sheet: SheetCodes | null): readonly ProcedureFault[] {
  const faults: ProcedureFault[] = [];
  if (document.steps.length === 0) {
    faults.push({ pointer: '/steps', step: null, field: 'steps', detail: 'There is no step. Write at least one.' });
  }
  const choices = new Map<string, readonly string[]>();
  const titles = new Map<string, number>();
  document.steps.forEach((step, index) => {
    const tell: Tell = (field, detail) =>
      faults.push({
        pointer: `/steps/${index}/${field}`,
        step: index + 1,
        field: field.split('/')[0] ?? field,
        detail,
      });
    checkTitle(step, { index, titles, tell });
    step.onlyIf.forEach((condition, place) => {
      checkCondition(condition, { choices, tell: (field, detail) => tell(`onlyIf/${place}/${field}`, detail) });
    });
    checkQuestion(step, choices, tell);
    checkPieces(step, document.kind, tell);
    if (sheet !== null) checkCodes(step, sheet, tell);
  });
  checkLayers(document, faults);
  return faults;
}

function checkTitle(
  { title }: StepInDocument,
  { index, titles, tell }: { index: number; titles: Map<string, number>; tell: Tell },
): void {
  const key = title.trim().toLocaleLowerCase('en');
  const first = titles.get(key);
  if (key === '') tell('title', 'Say in a few words what this step does.');
  else if (first !== undefined) tell('title', `Step ${first + 1} is called so already. Name this one otherwise.`);
  else titles.set(key, index);
}

function checkQuestion({ asks }: StepInDocument, choices: Map<string, readonly string[]>, tell: Tell): void {
  if (asks === null) return;
  const codes = asks.choices.map(({ code }) => code);
  if (choices.has(asks.code)) tell('asks/code', `An earlier step asks under "${asks.code}" already.`);
  if (codes.length < 2) tell('asks/choices', 'A question needs two choices at least.');
  const twice = codes.find((code, place) => codes.indexOf(code) < place);
  if (twice !== undefined) tell('asks/choices', `The choice "${twice}" is there twice.`);
  if (!choices.has(asks.code)) choices.set(asks.code, codes);
}

function checkCondition(
  condition: Condition,
  { choices, tell }: { choices: ReadonlyMap<string, readonly string[]>; tell: Tell },
): void {
  if (condition.oneOf.length === 0) tell('oneOf', 'Say for which answers or values the step stands.');
  const values: readonly string[] | null | undefined =
    'fact' in condition ? factValues[condition.fact] : choices.get(condition.question);
  const unknown = condition.oneOf.find((value) => values != null && !values.includes(value));
  if ('fact' in condition) {
    if (unknown !== undefined) {
      tell('oneOf', `"${condition.fact}" is never "${unknown}". It is one of: ${values?.join(', ')}.`);
    }
  } else if (values === undefined) tell('question', `No earlier step asks "${condition.question}".`);
  else if (unknown !== undefined) {
    tell('oneOf', `"${condition.question}" has no choice "${unknown}". It has: ${values?.join(', ')}.`);
  }
}

function checkPieces({ pieces, putIn }: StepInDocument, kind: ProcedureDocument['kind'], tell: Tell): void {
  const names = pieces.map(({ name }) => name.trim().toLocaleLowerCase('en'));
  names.forEach((name, place) => {
    if (name === '') tell(`pieces/${place}/name`, 'Name the piece.');
    else if (names.indexOf(name) < place) tell(`pieces/${place}/name`, `"${name}" is counted twice in this step.`);
  });
  putIn.forEach(({ name, where }, place) => {
    if (name.trim() === '') tell(`putIn/${place}/name`, 'Say what is put in.');
    if (where.trim() === '') tell(`putIn/${place}/where`, 'Say where it goes, so that it is found again.');
  });
  if (kind === 'prove' && pieces.length > 0) {
    tell('pieces', 'Nothing comes off or goes on while an engine is proved. Leave the pieces out.');
  }
}

function checkCodes({ readings, fastenerSet }: StepInDocument, sheet: SheetCodes, tell: Tell): void {
  readings.forEach(({ dimension }, place) => {
    if (!sheet.dimensions.includes(dimension)) {
      tell(`readings/${place}/dimension`, `The family’s published sheet has no dimension "${dimension}".`);
    }
  });
  const seen = readings.map(({ dimension, round }) => `${dimension} ${round}`);
  const twice = seen.findIndex((each, place) => seen.indexOf(each) < place);
  if (twice >= 0) tell(`readings/${twice}/dimension`, `"${seen[twice]}" is asked for twice in this step.`);
  if (fastenerSet !== null && !sheet.fastenerSets.includes(fastenerSet)) {
    tell('fastenerSet', `The family’s published sheet has no fastener set "${fastenerSet}".`);
  }
}

/** Cover before head before cylinder before case: each layer comes off once, from the outside in. */
function checkLayers({ steps, kind }: ProcedureDocument, faults: ProcedureFault[]): void {
  if (kind !== 'strip') return;
  const order = ['cover', 'head', 'cylinder', 'case'];
  let deepest = -1;
  steps.forEach(({ pieces }, index) => {
    pieces.forEach(({ layer, name }, place) => {
      if (layer === null) return;
      const depth = order.indexOf(layer);
      if (depth < deepest) {
        faults.push({
          pointer: `/steps/${index}/pieces/${place}/layer`,
          step: index + 1,
          field: 'pieces',
          detail: `"${name}" opens the engine to the ${layer}, but an earlier step has opened it deeper.`,
        });
      }
      deepest = Math.max(deepest, depth);
    });
  });
}
