import { backOn, caution, type PieceData, piece, pulledThrough, type StepData, step } from './procedure.ts';

const coverPieces = (bolts: number): readonly PieceData[] => [
  piece('Alternator cover bolt', bolts, 'alternator cover', { why: 'of several lengths: kept in a card by place' }),
  piece('Alternator cover gasket', 1, 'alternator cover', { oneTime: true }),
  piece('Alternator cover dowel', 2, 'alternator cover or case', { why: 'two, each may stay in either part' }),
  piece('Alternator cover', 1, 'case, left'),
];

const rotorPieces: readonly PieceData[] = [
  piece('Rotor nut', 1, 'crank, left'),
  piece('Rotor washer', 1, 'under the rotor nut'),
  piece('Rotor', 1, 'crank, left'),
  piece('Rotor key', 1, 'crank, left', { why: 'it falls out of its slot into the magnets' }),
];

export const alternatorOut = (bolts: number): readonly StepData[] => [
  step('Alternator cover off', 'Leads free first, their grommet out of its slot. Cover straight off.', {
    fastenerSet: 'alternator-cover-bolts',
    tray: 'case',
    cautions: [
      caution('electricity', 'Battery off since it was made safe: look that it still is.'),
      caution('cuts', 'The magnets hold the cover and snap it back: fingers outside the edge.'),
    ],
    pieces: coverPieces(bolts),
  }),
  step(
    'Alternator off',
    'Rotor held with its own holder, nut off, puller screwed home before it is drawn. Key out of its slot at once.',
    {
      fastenerSet: 'rotor-nut',
      tray: 'case',
      cautions: [
        caution('moving parts', 'The rotor lets go with a crack: hands clear, nobody in front of it.'),
        caution('other', 'Strong magnets: who wears a pacemaker keeps an arm’s length away.'),
        pulledThrough,
      ],
      pieces: rotorPieces,
    },
  ),
];

export const alternatorIn = (bolts: number): readonly StepData[] => [
  step(
    'Alternator on',
    'Taper of crank and rotor wiped dry and free of oil; the magnets looked over for a nut, a key, a chip. Key in its slot, rotor pressed home by hand, held with its own holder while the nut is pulled. The second person looks at key and magnets before it goes on.',
    {
      fastenerSet: 'rotor-nut',
      tray: 'case',
      secondPerson: true,
      cautions: [
        caution('cuts', 'The magnets snatch the rotor onto the crank: hold it by its rim, fingers out from behind.'),
        caution('other', 'Strong magnets: who wears a pacemaker keeps an arm’s length away.'),
        caution('damage', 'A taper with oil on it slips, shears its key and turns the spark: dry, and to the figure.'),
        pulledThrough,
      ],
      photo: 'The key in its slot, and the rotor’s magnets clean',
      pieces: backOn(rotorPieces),
    },
  ),
  step(
    'Alternator cover on',
    'Both dowels in, new gasket, a smear of sealer at the grommet; leads clear of rotor and chain. Bolts by their card.',
    {
      fastenerSet: 'alternator-cover-bolts',
      tray: 'case',
      cautions: [
        caution('cuts', 'The magnets pull the cover on: fingers outside the edge.'),
        caution('damage', 'A long bolt in a short hole cracks the case: all stand out alike before they are turned.'),
      ],
      pieces: backOn(coverPieces(bolts)),
    },
  ),
];
