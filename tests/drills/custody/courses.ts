import fc from 'fast-check';
import { type Draw, draws } from './acts.ts';
import { Again, AtOnce, InTurn, Look, OneAct } from './commands.ts';

const anyAct = draws.map((draw) => new OneAct(draw));
const anyPair = fc
  .tuple(draws, draws, fc.boolean())
  .map(([one, other, sameEngine]) => new AtOnce(one, sameEngine ? { ...other, engine: one.engine } : other));
/** The races that the trade knows: two answers to one offer, two counts of one tray, closing while something comes. */
const knownRaces = [
  ['accept', 'accept'],
  ['accept', 'withdraw'],
  ['accept', 'decline'],
  ['count', 'count'],
  ['count', 'accept'],
  ['count', 'move'],
  ['close', 'read'],
  ['close', 'count off'],
  ['close', 'close'],
  ['close', 'put in'],
  ['close', 'not found'],
  ['close', 'fitted'],
  ['taken out', 'taken out'],
  ['taken out', 'check'],
  ['turned up', 'decide'],
  ['found', 'decide'],
  ['look', 'look'],
  ['offer', 'offer'],
  ['offer', 'moved'],
  ['take', 'take'],
  ['accept', 'move'],
  ['fitted', 'fitted'],
  ['fitted', 'moved'],
  ['back', 'back'],
  ['open', 'open'],
] as const;
const knownRace = fc
  .tuple(draws, draws, fc.constantFrom(...knownRaces))
  .map(
    ([one, other, [kind, otherKind]]) =>
      new AtOnce({ ...one, kind }, { ...other, kind: otherKind, engine: one.engine, pick: one.pick, apt: one.apt }),
  );

/** Searched to the end and decided; put back, checked and closed; and prying into what somebody is to count blind. */
const courses: readonly (readonly Partial<Draw>[])[] = [
  [
    { kind: 'possibly inside' },
    ...Array.from({ length: 8 }, () => ({ kind: 'look', apt: true }) as const),
    { kind: 'decide', apt: true },
  ],
  [
    ...(['not found', 'found', 'turned up', 'never there'] as const).map((kind) => ({ kind, apt: true })),
    ...(['renewed', 'fitted', 'renewed', 'fitted', 'taken out', 'taken out'] as const).map((kind, pick) => ({
      kind,
      apt: true,
      flag: kind === 'taken out',
      pick,
    })),
    { kind: 'check', apt: true, flag: true, who: 'lead' },
    { kind: 'check', apt: true, flag: true, who: 'colleague' },
    { kind: 'check', apt: true, flag: true, who: 'technician' },
    { kind: 'discharge', apt: true },
    { kind: 'discharge', apt: true },
    { kind: 'close', apt: true, flag: false },
  ],
  [
    { kind: 'make tray', apt: true },
    { kind: 'count off', apt: true, pick: 3, flag: false, otherFlag: false },
    { kind: 'offer', apt: true, second: 1023 },
    ...(['fitted', 'renewed', 'moved', 'accounted', 'found', 'check', 'move', 'count off'] as const).map((kind) => ({
      kind,
      apt: false,
      second: 0,
    })),
  ],
];
const course = fc.tuple(fc.constantFrom(...courses), fc.array(draws, { minLength: 16, maxLength: 16 })).map(
  ([parts, drawn]) =>
    new InTurn(
      parts.flatMap((part, index) => {
        const [first, own] = [drawn[0], drawn[index]];
        return first === undefined || own === undefined
          ? []
          : [{ ...own, engine: first.engine, foreign: false, ...part }];
      }),
    ),
);

export const commandsOf = (length: number) =>
  fc.commands(
    [
      ...Array.from({ length: 10 }, () => anyAct),
      anyPair,
      course,
      knownRace,
      fc.constant(null).map(() => new Again()),
      draws.map((draw) => new Look(draw)),
    ],
    { maxCommands: length, size: 'max' },
  );
