/** Cautions that stand at a result: where a number could hurt an engine or a person. */
export const cautionWords = {
  'maker-decides': 'The maker’s service manual comes first; these figures are for comparison.',
  'fuel-and-ignition': 'Fuel, octane, jetting and ignition are for the maker’s manual and the tuner.',
  'first-start':
    'After a change of ratio or timing the first start is a trial: exhaust gas led outdoors, extinguisher at hand, no load.',
  'piston-meets-head': 'The piston’s edge meets the head. Do not turn this engine over.',
  'valve-meets-piston': 'Valve and piston meet. Do not turn this engine over.',
  'trial-assembly':
    'Geometry only: rod stretch, chain slack, valve float and pocket edges are not in it. Prove it by a trial assembly with soft clay or checking springs, turned by hand.',
  'lobes-alike':
    'Centres hold for lobes that are the same on both sides, and for the lift at which the points were read.',
  'speed-limit': 'What piston, rod and bearing stand is for their makers to say.',
  'gap-butts':
    'A gap that is too small butts when hot and breaks ring or bore. File from the gap’s face, never below the sheet.',
  'bore-is-plated': 'A plated bore is never bored or stone-honed to size: it is replated or renewed.',
  'ports-and-rings':
    'Port edges are chamfered after any change: rings catch on a sharp edge. A moved port cannot be moved back.',
  'oil-ratio': 'The ratio of the engine’s maker and of the oil’s maker decide. Too little oil seizes the engine.',
  'fuel-vapour': 'Fuel vapour burns: no flame, no spark, fresh air; mix in a marked can.',
  'coolant-hot': 'Hot coolant is under pressure: open the system only when it is cold.',
  'coolant-poison':
    'Coolant is poisonous to people and animals: collect what is let out and hand it in by local rules.',
  'both-legs':
    'Both legs get the same level; measured as the maker says: spring out or in, tube pushed in or drawn out.',
  'used-oil': 'Used oil is collected and handed in by local rules.',
} as const satisfies Record<string, string>;
export type CautionCode = keyof typeof cautionWords;
