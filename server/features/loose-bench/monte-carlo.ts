import { difference, type Print, quantity } from '#contracts/figures.ts';
import type { LooseMonteCarlo, LooseMonteCarloFound } from '#contracts/loose-measuring.ts';
import { type Distribution, mostDraws } from '#domain/metrology/monte-carlo.ts';
import { type Simulation, simulateDimension } from '#domain/metrology/simulating.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import { refuse } from './body.ts';
import { looseFindings, looseRound, printAsked } from './findings.ts';

const distributionOnWire = ({ mean, sd, symmetric, shortest }: Distribution, print: Print) => {
  const interval = ({ low, high }: Distribution['symmetric']) => ({
    low: quantity(low, print),
    high: quantity(high, print),
  });
  return {
    mean: quantity(mean, print),
    standardUncertainty: difference(sd, print),
    symmetric: interval(symmetric),
    shortest: interval(shortest),
  };
};

function refuseSimulation(simulation: Simulation & { readonly ok: false }): never {
  switch (simulation.reason) {
    case 'refused':
      return refuse('/dimension', refusalText(simulation.refusal));
    case 'felt':
      return refuse('/dimension', 'It is felt by hand: there is no figure to draw.');
    case 'no-upper-end':
      return refuse('/dimension', 'The thickest blade went in: a gap without an upper end can’t be drawn.');
    case 'trials':
    case 'level':
    case 'seed':
      return refuse(`/${simulation.reason}`, 'It is out of range.');
  }
}

/** Draws one dimension of a body that carries all it needs. */
export function looseMonteCarlo(body: LooseMonteCarlo): LooseMonteCarloFound {
  const { dimension, trials = 20_000, seed = 1, level = 0.95, ...asked } = body;
  const index = asked.dimensions.findIndex(({ code }) => code === dimension);
  if (index < 0) return refuse('/dimension', `There is no dimension ${dimension}.`);
  if (trials * asked.readings.length > mostDraws) {
    const most = Math.floor(mostDraws / asked.readings.length);
    return refuse('/trials', `With ${asked.readings.length} readings ${most} trials are the most that are drawn here.`);
  }
  const round = looseRound(asked);
  const simulation = simulateDimension({ ...round, dimension, trials, seed, level });
  if (!simulation.ok) return refuseSimulation(simulation);
  const print = printAsked(asked, index);
  return {
    dimension,
    trials,
    seed,
    level,
    upper: distributionOnWire(simulation.upper, print),
    lower: distributionOnWire(simulation.lower, print),
    probabilityPast: simulation.probabilityPast,
    closedForm: looseFindings(asked).findings.find((finding) => finding.dimension === dimension) ?? null,
  };
}
