import type { DimensionDefinition } from './dimension.ts';
import type { Refusal } from './finding.ts';
import type { PositionValue, ValueSource } from './gathered-positions.ts';
import type { Instrument } from './instrument.ts';
import { pointInterval } from './interval.ts';
import { type Distribution, distributionOf, type Trials, trialsFault } from './monte-carlo.ts';
import { isSeed, type RandomSource, randomSource } from './random-source.ts';
import { definitionOf, gatheredOnce, type Material, materialOf, type Sources } from './resolving.ts';
import { gaugeErrorIsShared, repeatabilityOf, settingWeights } from './uncertainty.ts';
import { effectiveLimits } from './verdict.ts';

export type SimulationRequest = Sources & Trials & { readonly dimension: string };

export type Simulation =
  | (Trials & {
      readonly ok: true;
      /** What is held against the upper limit, and what against the lower; the same but for what varies by place. */
      readonly upper: Distribution;
      readonly lower: Distribution;
      /** Share of the trials that lay past a limit; null where there is none. */
      readonly probabilityPast: number | null;
    })
  | { readonly ok: false; readonly reason: 'trials' | 'level' | 'seed' | 'felt' | 'no-upper-end' }
  | { readonly ok: false; readonly reason: 'refused'; readonly refusal: Refusal };

/** What all readings of one setting of a gauge have to themselves and in common, for one trial. */
type Chance = {
  readonly instrument: Instrument;
  readonly errorShared: boolean;
  readonly repeatability: { readonly sd: number; readonly degreesOfFreedom: number | null } | undefined;
};

const settingsOf = ({ workedOut, positions }: Material): ReadonlyMap<string, Chance> => {
  const coefficients = new Map<string, number[]>();
  for (const { coefficient, at } of workedOut.upper.terms) {
    if (at.source === undefined) continue;
    const key = at.source.settingKey;
    coefficients.set(key, [...(coefficients.get(key) ?? []), coefficient]);
  }
  const settings = new Map<string, Chance>();
  for (const { source } of positions) {
    if (source === undefined || settings.has(source.settingKey)) continue;
    const { instrument, settingKey } = source;
    settings.set(settingKey, {
      instrument,
      errorShared: gaugeErrorIsShared(instrument, settingWeights(coefficients.get(settingKey) ?? [1])),
      repeatability: repeatabilityOf(instrument, positions),
    });
  }
  return settings;
};

type SettingDraw = Chance & { readonly shared: number; readonly scale: number };

const drawSetting = (chance: Chance, random: RandomSource): SettingDraw => {
  const { instrument, errorShared, repeatability } = chance;
  const dof = repeatability?.degreesOfFreedom ?? null;
  return {
    ...chance,
    shared:
      random.normal() * instrument.masterUncertainty +
      (errorShared ? random.between(-instrument.mpe, instrument.mpe) : 0),
    // One estimate of the scatter serves all readings: where few readings are behind it, it is off for all alike.
    scale: (repeatability?.sd ?? 0) * (dof === null ? 1 : random.studentFactor(dof)),
  };
};

type Warmth = { readonly part: number; readonly gauge: number; readonly kelvin: number };

const drawWarmth = ({ material, instrument, thermal }: ValueSource, random: RandomSource): Warmth => ({
  part: random.normal() * (material?.alphaUncertaintyPerKelvin ?? 0),
  gauge: random.normal() * (instrument.alphaUncertaintyPerKelvin ?? 0),
  kelvin: random.normal() * (thermal?.uncertaintyKelvin ?? 0),
});

const figureDrawn = (
  at: PositionValue,
  source: ValueSource,
  by: SettingDraw & Warmth & { readonly random: RandomSource },
): number => {
  const { random, instrument, errorShared } = by;
  const { thermal, uncorrected, repeats } = source;
  const half = instrument.resolution / 2;
  const reach = instrument.localUncertainty === undefined ? instrument.mpe : Math.sqrt(3) * instrument.localUncertainty;
  const own = errorShared ? 0 : random.between(-reach, reach);
  const warm =
    thermal === undefined
      ? 0
      : uncorrected *
        (thermal.partAlphaSensitivity * by.part +
          thermal.instrumentAlphaSensitivity * by.gauge +
          thermal.relativePerKelvin * by.kelvin);
  return (
    at.interval.low +
    by.shared +
    own +
    warm +
    random.between(-half, half) +
    (random.normal() * by.scale) / Math.sqrt(repeats.length)
  );
};

/** One trial's figures at every position, by the dimension that was read. */
const drawPositions = (
  positions: readonly PositionValue[],
  settings: ReadonlyMap<string, Chance>,
  random: RandomSource,
): ReadonlyMap<string, readonly PositionValue[]> => {
  const drawn = new Map<string, PositionValue[]>();
  const bySetting = new Map([...settings].map(([key, chance]) => [key, drawSetting(chance, random)]));
  const byPart = new Map<string, Warmth>();
  for (const at of positions) {
    const { source, interval, dimension } = at;
    let value: number;
    if (source === undefined) value = random.between(interval.low, interval.high);
    else {
      const setting = bySetting.get(source.settingKey);
      if (setting === undefined) throw new RangeError(`No setting ${source.settingKey}`);
      const key = `${source.settingKey}|${dimension}`;
      const warmth = byPart.get(key) ?? drawWarmth(source, random);
      byPart.set(key, warmth);
      value = figureDrawn(at, source, { ...setting, ...warmth, random });
    }
    const here = drawn.get(dimension);
    const point = { ...at, interval: pointInterval(value) };
    if (here === undefined) drawn.set(dimension, [point]);
    else here.push(point);
  }
  return drawn;
};

const drawnMaterial = (
  definition: DimensionDefinition,
  sheet: readonly DimensionDefinition[],
  drawn: ReadonlyMap<string, readonly PositionValue[]>,
): Material => {
  const material = materialOf(definition, sheet, ({ code }) => ({ ok: true, positions: drawn.get(code) ?? [] }));
  if (!material.ok) throw new RangeError(`A trial of ${definition.code}: ${material.refusal.reason}`);
  return material;
};

/**
 * Works a dimension out again and again with its readings moved by chance: resolution and permissible error
 * rectangular, master and thermal sources normal, scatter normal or Student's t by its degrees of freedom, feeler
 * intervals uniform; what one setting shares is drawn once for it, as the budget takes it. The seed determines the
 * result. Base units. Refuses what can't be worked out, what is felt and a gap without an upper end.
 * Source: JCGM 101:2008, 6.4 and clause 7.
 */
export const simulateDimension = (request: SimulationRequest): Simulation => {
  const { trials, seed, level, sheet } = request;
  const fault = trialsFault(request);
  if (fault !== undefined) return { ok: false, reason: fault };
  if (!isSeed(seed)) return { ok: false, reason: 'seed' };
  const found = definitionOf(request.dimension, sheet);
  if (!found.ok) return { ok: false, reason: 'refused', refusal: found.refusal };
  const { definition } = found;
  if (definition.method.type === 'felt') return { ok: false, reason: 'felt' };
  const material = materialOf(definition, sheet, gatheredOnce(request));
  if (!material.ok) return { ok: false, reason: 'refused', refusal: material.refusal };
  if (material.positions.some(({ interval }) => !Number.isFinite(interval.high))) {
    return { ok: false, reason: 'no-upper-end' };
  }
  const settings = settingsOf(material);
  const random = randomSource(seed);
  const upper = new Float64Array(trials);
  const lower = new Float64Array(trials);
  const { low, high } = effectiveLimits(definition.limits);
  let past = 0;
  for (let trial = 0; trial < trials; trial += 1) {
    const drawn = drawnMaterial(definition, sheet, drawPositions(material.positions, settings, random));
    const most = drawn.workedOut.upper.interval.high;
    const least = drawn.workedOut.lower.interval.low;
    upper[trial] = most;
    lower[trial] = least;
    if ((high !== undefined && most > high) || (low !== undefined && least < low)) past += 1;
  }
  return {
    ok: true,
    trials,
    seed,
    level,
    upper: distributionOf(upper, level),
    lower: distributionOf(lower, level),
    probabilityPast: low === undefined && high === undefined ? null : past / trials,
  };
};
