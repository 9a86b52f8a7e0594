import { cubicMillimetres, nanometres } from '#domain/units/quantity.ts';
import { coolantChange, fuelFor, massOfVolume, oilFor, oilToLevel, volumeOfMass } from '../fluids.ts';
import { calculation, figureIn, needed, optional, plainFigure } from './calculation.ts';

const positive = { above: true } as const;
const percent = { most: 100, unit: '%' } as const;

/** Two of ratio, fuel and oil; the third. */
export const mixtureOf = calculation({
  inputs: {
    ratio: optional('number', { least: 1, most: 1000 }),
    fuel: optional('volume', positive),
    oil: optional('volume', positive),
  },
  figures: { oil: figureIn('mL', 1), fuel: figureIn('L', 3), mixture: figureIn('L', 3), ratio: plainFigure('1', 1) },
  rows: {},
  work: ({ ratio, fuel, oil }) => {
    const refused = (field: string) => ({ ok: false as const, faults: [{ field, reason: 'two-of-three' as const }] });
    const known = [ratio, fuel, oil].filter((one) => one !== undefined).length;
    if (known < 2) return refused(ratio === undefined ? 'ratio' : fuel === undefined ? 'fuel' : 'oil');
    if (known === 3) return refused('oil');
    const wholeFuel = fuel ?? fuelFor(oil ?? cubicMillimetres(0), ratio ?? 1);
    const wholeOil = oil ?? oilFor(wholeFuel, ratio ?? 1);
    const found = ratio ?? wholeFuel / wholeOil;
    if (found < 1) return { ok: false, faults: [{ field: 'oil', reason: 'ratio-not-above-one' }] };
    return {
      ok: true,
      figures: { oil: wholeOil, fuel: wholeFuel, mixture: wholeFuel + wholeOil, ratio: found },
      rows: [],
      cautions: ['oil-ratio', 'fuel-vapour'],
    };
  },
});

/** What to let out and pour in to bring a cooling system to a strength. */
export const coolantOf = calculation({
  inputs: {
    holds: needed('volume', positive),
    wantedStrength: needed('number', { ...percent, ...positive }),
    foundStrength: optional('number', percent),
    pouredStrength: needed('number', { ...percent, ...positive, usual: '100' }),
  },
  figures: { drain: figureIn('mL', 0), concentrate: figureIn('mL', 0), water: figureIn('mL', 0) },
  rows: {},
  work: ({ holds, wantedStrength, foundStrength, pouredStrength }) => {
    const change = coolantChange({
      holds,
      wanted: wantedStrength / 100,
      found: foundStrength === undefined ? undefined : foundStrength / 100,
      strength: pouredStrength / 100,
    });
    if (change === undefined) return { ok: false, faults: [{ field: 'pouredStrength', reason: 'strength-too-low' }] };
    return { ok: true, figures: change, rows: [], cautions: ['coolant-hot', 'coolant-poison', 'maker-decides'] };
  },
});

/** Oil to add or take out to bring the level in a tube to where it should be. */
export const oilLevelOf = calculation({
  inputs: {
    tubeBore: needed('length', positive),
    rodDiameter: optional('length'),
    levelFound: needed('length'),
    levelWanted: needed('length'),
  },
  figures: { add: figureIn('mL', 1), perMillimetre: figureIn('mL', 2) },
  rows: {},
  work: ({ tubeBore: tube, rodDiameter, levelFound: found, levelWanted: wanted }) => {
    const rod = rodDiameter ?? nanometres(0);
    if (rod >= tube) return { ok: false, faults: [{ field: 'rodDiameter', reason: 'rod-fills-tube' }] };
    const one = { tube, rod, found: nanometres(1_000_000), wanted: nanometres(0) };
    return {
      ok: true,
      figures: { add: oilToLevel({ tube, rod, found, wanted }), perMillimetre: oilToLevel(one) },
      rows: [],
      cautions: ['both-legs', 'used-oil', 'maker-decides'],
    };
  },
});

/** A fill by weight: volume of so much mass, or mass of so much volume. */
export const fillByWeightOf = calculation({
  inputs: {
    density: needed('number', { ...positive, most: 20, unit: 'g/mL' }),
    mass: optional('number', { ...positive, unit: 'g' }),
    volume: optional('volume', positive),
  },
  figures: { volume: figureIn('mL', 1), mass: plainFigure('g', 1) },
  rows: {},
  work: ({ density, mass, volume }) => {
    if ((mass === undefined) === (volume === undefined)) {
      return { ok: false, faults: [{ field: mass === undefined ? 'mass' : 'volume', reason: 'one-of-two' }] };
    }
    const filled = volume ?? volumeOfMass(mass ?? 0, density);
    return {
      ok: true,
      figures: { volume: filled, mass: mass ?? massOfVolume(filled, density) },
      rows: [],
      cautions: ['used-oil', 'maker-decides'],
    };
  },
});
