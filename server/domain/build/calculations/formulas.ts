import type { CalculationKind } from './kinds.ts';

/** How each calculation gets to its results, as it is written beside them. Geometry and arithmetic unless it says else. */
export const formulas: Readonly<Record<CalculationKind, readonly string[]>> = {
  displacement: ['V = π/4 · B² · S · n'],
  'compression-ratio': [
    'ratio = (Vs + Vc) / Vc',
    'Vc = chamber + crown + π/4 · D² · gasket + π/4 · B² · deck',
    'from intake closing: Vs over the stroke that is left, x = r(1 − cos θ) + L − √(L² − r² sin² θ)',
    'squish = deck + gasket',
    'chamber for a ratio = Vs / (ratio − 1) − (Vc − chamber)',
  ],
  'bore-comparison': [
    'V = π/4 · B² · S · n, ratio with the same volume left above the piston',
    'clearance = bore − piston, least to most',
    'gap 0.0035 to 0.004 of the bore (common practice)',
    'gap growth = π · ΔB',
  ],
  'ring-gap': [
    'gap = factor · bore (common practice)',
    'gap afterwards = gap + π · ΔB',
    'taper = (gap at the top − gap at the bottom) / π',
  ],
  'piston-motion': [
    'x = r(1 − cos θ) + L − √(L² − r² sin² θ)',
    'speed = dx/dθ · ω, acceleration = d²x/dθ² · ω²',
    'mean speed = 2 · S · N / 60',
    'largest acceleration = r · ω² · (1 + r/L), at top dead centre',
  ],
  'valve-to-piston': [
    'clearance(θ) = c₀ + x(θ) · cos γ − lift(θ)',
    'lift = lobe lift · rocker ratio − lash; between the lines of the table a curve that never rises above them',
  ],
  'cam-timing': [
    'duration = opening + 180° + closing',
    'intake centre = duration/2 − opening, after top; exhaust centre = duration/2 − closing, before top',
    'separation = (intake centre + exhaust centre) / 2; overlap = intake opening + exhaust closing',
  ],
  'cam-points': [
    'opening = duration/2 − centre, intake before top; closing = duration/2 + centre − 180°, after bottom',
    'exhaust the other way round',
  ],
  'port-timing': [
    'cos θ = (r² + h² − L²) / (2 · r · h), h = r + L − height',
    'open = 360° − 2 · θ; blowdown = θ transfer − θ exhaust',
  ],
  'port-heights': ['height = r(1 − cos θ) + L − √(L² − r² sin² θ), θ = (360° − open) / 2'],
  mixture: ['ratio = fuel / oil, by volume'],
  coolant: [
    'empty: concentrate = V · wanted / poured',
    'too weak: let out and replace V · (wanted − found) / (poured − found)',
    'too strong: let out and replace by water V · (1 − wanted / found)',
  ],
  'oil-level': ['ΔV = π/4 · (D² − d²) · (level found − level wanted), levels from the top down'],
  'fill-by-weight': ['V = m / ρ'],
};
