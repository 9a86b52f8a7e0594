import fc from 'fast-check';
import { type Draw, draws } from './acts.ts';
import { AtOnce } from './at-once.ts';
import { Again, InTurn, Look, OneAct } from './commands.ts';

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
  ['look', 'offer'],
  ['begin run', 'begin run'],
  ['resume run', 'resume run'],
  ['resume run', 'offer'],
  ['resume run', 'send out'],
  ['leave', 'leave'],
  ['offer', 'offer'],
  ['offer', 'moved'],
  ['take', 'take'],
  ['accept', 'move'],
  ['fitted', 'fitted'],
  ['fitted', 'moved'],
  ['back', 'back'],
  ['open', 'open'],
  ['fill', 'fill'],
  ['fill', 'fitted'],
  ['fill', 'offer'],
  ['swap', 'swap'],
  ['swap', 'fill'],
  ['swap', 'close'],
  ['count off', 'fill'],
  ['found', 'fitted'],
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
    ...Array.from({ length: 15 }, () => ({ kind: 'close', apt: true, second: 1, flag: false }) as const),
    { kind: 'close', apt: true, second: 8, flag: false },
  ],
  [
    { kind: 'count off', apt: true, pick: 20, flag: false, count: 4, otherFlag: true },
    ...(['fill', 'swap', 'fitted', 'fill', 'fitted', 'swap', 'renewed', 'fill'] as const).map((kind) => ({
      kind,
      apt: true,
    })),
  ],
  [
    { kind: 'make tray', apt: true },
    { kind: 'count off', apt: true, pick: 20, flag: false, count: 5, otherFlag: false },
    { kind: 'fill', apt: true, flag: false },
    { kind: 'offer', apt: true, second: 1023 },
    ...(['fill', 'swap', 'fitted', 'count off', 'found'] as const).map((kind) => ({ kind, apt: false })),
    { kind: 'count', apt: true, counting: 'right' },
    { kind: 'accept', apt: true },
    { kind: 'fill', apt: true, flag: true },
    { kind: 'swap', apt: true },
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
