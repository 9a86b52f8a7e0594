export const mm = (value: string) => ({ value, unit: 'mm' });

/** u² = (0.001/(2√3))² + (0.003/√3)² + 0.0012²/3: u = 0.001888, U = 0.003775 mm (JCGM 100, 4.3). */
export const threeRepeats = {
  day: '2026-11-25',
  dimensions: [{ code: 'pin', name: 'Piston pin', unit: 'mm', decimals: 3, method: 'single' as const }],
  limits: [{ dimension: 'pin', standard: { low: mm('19.994'), high: mm('20.002') }, service: { low: mm('19.980') } }],
  instruments: [
    {
      code: 'micrometer',
      resolution: mm('0.001'),
      maximumPermissibleError: mm('0.003'),
      repeatability: { standardDeviation: mm('0.0012') },
    },
  ],
  readings: ['19.989', '19.990', '19.988'].map((value) => ({
    dimension: 'pin',
    instrument: 'micrometer',
    value: mm(value),
  })),
};

const boreRead: readonly (readonly [string, string, string])[] = [
  ['A', '88.048', '88.039'],
  ['B', '88.041', '88.034'],
  ['C', '88.031', '88.029'],
];

/** A bore at three heights and two axes, its taper, out-of-round, and its clearance to a piston; at 22 °C. */
export const boreAndPiston = {
  day: '2026-11-25',
  dimensions: [
    {
      code: 'bore',
      name: 'Bore, size',
      method: 'size' as const,
      boreRule: 'per-level' as const,
      positions: boreRead.flatMap(([level], index) =>
        ['across', 'along'].map((axis) => ({ code: `${level} ${axis}`, level: index + 1, axis })),
      ),
      material: { expansionPerKelvin: 0.000_023, uncertaintyPerKelvin: 0.000_001 },
    },
    { code: 'out-of-round', method: 'out-of-round' as const, readingsOf: 'bore' },
    { code: 'taper', method: 'taper' as const, readingsOf: 'bore' },
    { code: 'piston', method: 'single' as const },
    { code: 'clearance', method: 'difference' as const, minuend: 'bore', subtrahend: 'piston' },
  ],
  limits: [
    { dimension: 'bore', standard: { low: mm('88.000'), high: mm('88.015') }, service: { high: mm('88.050') } },
    { dimension: 'out-of-round', standard: { high: mm('0.010') }, service: { high: mm('0.030') } },
    { dimension: 'taper', standard: { high: mm('0.010') }, service: { high: mm('0.030') } },
    { dimension: 'piston', standard: { low: mm('87.955'), high: mm('87.970') }, service: { low: mm('87.925') } },
    { dimension: 'clearance', standard: { low: mm('0.030'), high: mm('0.060') }, service: { high: mm('0.120') } },
  ],
  instruments: [
    {
      code: 'bore gauge',
      resolution: mm('0.001'),
      maximumPermissibleError: mm('0.002'),
      repeatability: { standardDeviation: mm('0.0008'), degreesOfFreedom: 60 },
      masterUncertainty: mm('0.0005'),
      expansionPerKelvin: 0.000_011_5,
    },
    {
      code: 'micrometer',
      resolution: mm('0.001'),
      maximumPermissibleError: mm('0.002'),
      repeatability: { standardDeviation: mm('0.0008'), degreesOfFreedom: 60 },
    },
  ],
  readings: [
    ...boreRead.flatMap(([level, across, along]) =>
      [
        ['across', across],
        ['along', along],
      ].map(([axis, value]) => ({
        dimension: 'bore',
        position: `${level} ${axis}`,
        instrument: 'bore gauge',
        value: mm(value ?? ''),
        partTemperature: { value: '22', unit: 'degC' },
        temperatureUncertainty: 0.5,
      })),
    ),
    { dimension: 'piston', instrument: 'micrometer', value: mm('87.951') },
  ],
};

/** A ring's end gap by feeler: it straddles its limit, so the honest answer is undecided. */
export const ringGap = {
  day: '2026-11-25',
  dimensions: [{ code: 'ring gap', decimals: 2, method: 'interval' as const }],
  limits: [{ dimension: 'ring gap', standard: { low: mm('0.25'), high: mm('0.40') }, service: { high: mm('0.60') } }],
  instruments: [
    {
      code: 'feelers',
      resolution: mm('0.01'),
      maximumPermissibleError: mm('0.002'),
      blades: ['0.25', '0.30', '0.35', '0.55', '0.65'].map((thickness) => ({
        thickness: mm(thickness),
        tolerance: mm('0.002'),
      })),
    },
  ],
  readings: [{ dimension: 'ring gap', instrument: 'feelers', interval: { go: '0.25+0.30', noGo: '0.65', unit: 'mm' } }],
};
