/**
 * Standard uncertainty by what a result was read with, mm (N, kPa, % where the gauge reads those): resolution / (2√3),
 * MPE / √3, s / √n and the setting master's u in quadrature. Figures of the demo shop's register, worked out on paper.
 */
export const certainty: Readonly<Record<string, number>> = {
  // 0.001²/12 + 0.002²/3 + 0.0008² + 0.0005² = (0.0833 + 1.3333 + 0.64 + 0.25) × 10⁻⁶ = 2.3067 × 10⁻⁶
  MI: 0.001_518_77,
  // The mean of two places halves s² alone: (0.0833 + 1.3333 + 0.32 + 0.25) × 10⁻⁶ = 1.9867 × 10⁻⁶
  'MI mean': 0.001_409_49,
  // Lobe − mean of two on the base circle, one setting, which cancels: 1.5 × (0.0833 + 1.3333 + 0.64) × 10⁻⁶ = 3.085 × 10⁻⁶
  'MI−MI mean': 0.001_756_42,
  // 0.001²/12 + 0.003²/3 + 0.0012² + 0.0006² = (0.0833 + 3 + 1.44 + 0.36) × 10⁻⁶ = 4.8833 × 10⁻⁶
  BG: 0.002_209_83,
  // Read twice: (0.0833 + 3 + 0.72 + 0.36) × 10⁻⁶ = 4.1633 × 10⁻⁶
  'BG×2': 0.002_040_42,
  // Between two places, one setting, which cancels: 2 × (0.0833 + 3 + 1.44) × 10⁻⁶ = 9.0467 × 10⁻⁶
  'BG−BG': 0.003_007_77,
  // The first of them read twice: (2 × 0.0833 + 2 × 3 + 1.44/2 + 1.44) × 10⁻⁶ = 8.3267 × 10⁻⁶
  'BG×2−BG': 0.002_885_6,
  // Two gauges, independent: (4.8833 + 2.3067) × 10⁻⁶ = 7.19 × 10⁻⁶
  'BG,MI': 0.002_681_42,
  // 0.001²/12 + 0.003²/3 + 0.0015² + 0.0006² = (0.0833 + 3 + 2.25 + 0.36) × 10⁻⁶ = 5.6933 × 10⁻⁶
  SH: 0.002_386_07,
  // (5.6933 + 2.3067) × 10⁻⁶ = 8 × 10⁻⁶
  'SH,MI': 0.002_828_43,
  // No master: (0.0833 + 3 + 2.25) × 10⁻⁶ = 5.3333 × 10⁻⁶
  DI: 0.002_309_4,
  // 0.01²/12 + 0.02²/3 + 0.008² = (8.3333 + 133.3333 + 64) × 10⁻⁶ = 205.6667 × 10⁻⁶
  CA: 0.014_341_08,
  // Stretch in % of a chain of 127 mm, whose length when new is taken as exact: 0.01434108 / 127; of 158.8 mm the same.
  'CA/127': 0.011_292_2,
  'CA/158.8': 0.009_030_9,
  // At 28 °C, L = 92.055: L · 8 K · u(α) of 10⁻⁶ for the part and again for the gauge, L · 11.5 × 10⁻⁶ · 0.5 K:
  // (4.8833 + 0.5423 + 0.5423 + 0.2802) × 10⁻⁶ = 6.2482 × 10⁻⁶
  'BG at 28 °C': 0.002_499_64,
  // L = 91.938: (2.3067 + 0.5410 + 0.5410 + 0.2795) × 10⁻⁶ = 3.6681 × 10⁻⁶
  'MI at 28 °C': 0.001_915_22,
  // (6.2482 + 3.6681) × 10⁻⁶ = 9.9163 × 10⁻⁶
  'BG,MI at 28 °C': 0.003_149_01,
  // 10²/12 + 20²/3 + 8² = 8.3333 + 133.3333 + 64 = 205.6667 kPa²
  CG: 14.341_08,
  // 0.5²/12 + 1²/3 + 0.3² = 0.0208 + 0.3333 + 0.09 = 0.4442
  LD: 0.666_458,
  // 0.5²/12 + 2²/3 + 0.6² + 0.1² = 0.0208 + 1.3333 + 0.36 + 0.01 = 1.7242 N²
  SP: 1.313_075,
  // A feeler's width says it, a hand says yes or no.
  FE: 0,
  hand: 0,
};
