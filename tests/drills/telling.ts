import process from 'node:process';

/** How often each kind of act was done, and how often it was refused. */
export type Acts<Kind extends string = string> = ReadonlyMap<Kind, { readonly done: number; readonly refused: number }>;

/** How far a drill has come. */
export interface Drilled<Kind extends string = string> {
  readonly steps: number;
  readonly histories: number;
  readonly acts: Acts<Kind>;
}

export function newTally<Kind extends string>(): {
  readonly acts: Acts<Kind>;
  readonly onAct: (kind: Kind, wasDone: boolean) => void;
} {
  const acts = new Map<Kind, { done: number; refused: number }>();
  const onAct = (kind: Kind, wasDone: boolean) => {
    const { done, refused } = acts.get(kind) ?? { done: 0, refused: 0 };
    acts.set(kind, wasDone ? { done: done + 1, refused } : { done, refused: refused + 1 });
  };
  return { acts, onAct };
}

/** What `npm run drill -- … --steps N --seed S` sets, and how far the ordinary run goes. Aloud: somebody watches. */
export function drillAsked(ordinary: { readonly steps: number; readonly seed: number }) {
  const { CROSSHATCH_DRILL_STEPS: steps, CROSSHATCH_DRILL_SEED: seed } = process.env;
  const aloud = steps !== undefined;
  return {
    steps: Number(steps ?? ordinary.steps),
    seed: Number(seed ?? ordinary.seed),
    aloud,
    timeout: aloud ? 24 * 3_600_000 : 300_000,
  };
}

const actsInWords = (acts: Acts): string =>
  [...acts]
    .map(([kind, { done, refused }]) => `${kind} ${done} (refused ${refused})`)
    .toSorted()
    .join(', ');

/** Tells, where somebody watches, how far a drill has come: every so many steps, now and then with all acts. */
export function teller({ seed, aloud, every }: { seed: number; aloud: boolean; every: number }) {
  const started = Date.now();
  let [said, tallied] = [0, 0];
  const pace = ({ steps, histories }: Drilled) => {
    const seconds = (Date.now() - started) / 1000;
    const rate = Math.round(steps / seconds);
    return `seed ${seed}: ${steps} steps in ${histories} histories, ${Math.round(seconds)} s, ${rate} steps/s`;
  };
  return {
    progress: (so: Drilled): void => {
      if (!aloud || so.steps < said + every) return;
      said = so.steps;
      console.log(pace(so));
      if (so.steps < tallied + 5 * every) return;
      tallied = so.steps;
      console.log(actsInWords(so.acts));
    },
    done: (so: Drilled): void => {
      if (aloud) console.log(`done, ${pace(so)}\n${actsInWords(so.acts)}`);
    },
  };
}
