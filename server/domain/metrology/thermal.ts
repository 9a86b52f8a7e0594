import type { PartMaterial } from './dimension.ts';
import type { Instrument } from './instrument.ts';
import type { ReadingTemperature } from './reading.ts';

/** 20 °C, the reference temperature of length measurement (ISO 1), in millikelvin. */
export const referenceTemperature = 293_150;

const kelvinFromReference = (millikelvin: number): number => (millikelvin - referenceTemperature) / 1000;

export type ThermalMissing = 'temperature' | 'part expansion' | 'instrument expansion';

export type ThermalCorrection = {
  /** What to multiply the length shown by, to have it at 20 °C. */
  readonly factor: number;
  /** Change of the corrected length per unit of length and per unit error of the part's expansion (kelvin, signed). */
  readonly partAlphaSensitivity: number;
  /** The same for the gauge's own expansion. */
  readonly instrumentAlphaSensitivity: number;
  /** Relative change of the corrected length per kelvin that the temperature is wrong by. */
  readonly relativePerKelvin: number;
  /** Standard uncertainty of the temperature. */
  readonly uncertaintyKelvin: number;
};

export type ThermalOutcome =
  | { readonly ok: true; readonly correction: ThermalCorrection }
  | { readonly ok: false; readonly missing: ThermalMissing };

/**
 * Correction of a length to 20 °C: L20 = L·(1 − α_part·(T_part − 20) + α_gauge·(T_gauge − 20)): the part has grown,
 * the gauge has grown with it and so shows less than there is. First order in α (ISO 1; GUM H.1).
 * Uncertainty: L·(T − 20)·u(α), and L·(α_part − α_gauge)·u(T) where both share one temperature; where they have two,
 * L·√(α_part² + α_gauge²)·u(T). Needs a temperature and both expansions; says which is missing.
 */
export const thermalCorrection = (
  temperature: ReadingTemperature | undefined,
  material: PartMaterial | undefined,
  instrument: Instrument,
): ThermalOutcome => {
  if (temperature === undefined) return { ok: false, missing: 'temperature' };
  if (material === undefined) return { ok: false, missing: 'part expansion' };
  const alphaOfGauge = instrument.alphaPerKelvin;
  if (alphaOfGauge === undefined) return { ok: false, missing: 'instrument expansion' };
  const partKelvin = kelvinFromReference(temperature.part);
  const gaugeKelvin = kelvinFromReference(temperature.instrument);
  const expansion =
    temperature.part === temperature.instrument
      ? Math.abs(material.alphaPerKelvin - alphaOfGauge)
      : Math.hypot(material.alphaPerKelvin, alphaOfGauge);
  return {
    ok: true,
    correction: {
      factor: 1 - material.alphaPerKelvin * partKelvin + alphaOfGauge * gaugeKelvin,
      partAlphaSensitivity: -partKelvin,
      instrumentAlphaSensitivity: gaugeKelvin,
      relativePerKelvin: expansion,
      uncertaintyKelvin: temperature.uncertaintyKelvin,
    },
  };
};
