import {
  caution,
  type FourStrokeWork,
  manualDecides,
  type ProcedureData,
  piece,
  pulledThrough,
  section,
  step,
} from './procedure.ts';

export const fourStrokeCase = (of: FourStrokeWork): ProcedureData => ({
  code: `${of.code}-CASE`,
  name: `Split the case, ${of.name}`,
  kind: 'strip',
  note: manualDecides,
  steps: section('Case', [
    step(
      'Covers and clutch off',
      'Side covers, clutch, primary gear; every shim washer is looked for on its shaft and in the cover.',
      {
        tray: 'case',
        cautions: [
          caution('springs under load', 'Clutch springs: bolts a turn at a time, criss-cross.'),
          caution('used oil and coolant', 'What stayed behind the covers runs out: gloves, a tray under it.'),
        ],
        pieces: [
          piece('Side cover bolt', 12, 'side covers', { why: 'three lengths: kept in a card by place' }),
          piece('Side cover gasket', 2, 'case', { oneTime: true }),
          piece('Clutch spring', 6, 'clutch'),
          piece('Clutch plate', 13, 'clutch', { matchedSet: 'clutch pack' }),
          piece('Shim washer', 3, 'shafts', { why: 'one a shaft; they stick to the cover with oil' }),
        ],
      },
    ),
    step('Alternator off', 'Rotor held with its own holder, nut off, puller screwed home before it is drawn.', {
      tray: 'case',
      cautions: [
        caution('moving parts', 'The rotor lets go with a crack: hands clear, nobody in front of it.'),
        pulledThrough,
      ],
      pieces: [
        piece('Rotor nut', 1, 'crank, left'),
        piece('Rotor', 1, 'crank, left'),
        piece('Rotor key', 1, 'crank, left', { why: 'it falls out of its slot into the magnets' }),
      ],
    }),
    step(
      'Case split',
      'Bolts criss-cross, then the splitter; warmed at the bearing seats. Never a lever between the faces. The second person looks that no bolt is left in before force goes on.',
      {
        cautions: [
          caution('hot parts', 'Heat on the bearing seats: gloves, no solvent near it.'),
          caution('lifting', 'The crank comes away with one half: two people.'),
        ],
        fastenerSet: 'case-bolts',
        secondPerson: true,
        tray: 'case',
        photo: 'Gears and shims of both halves as they lie',
        pieces: [
          piece('Case bolt', 10, 'case', { why: 'two lengths: kept in a card by place' }),
          piece('Case half', 1, 'engine', { layer: 'case', matchedSet: 'case halves', why: 'bored together' }),
          piece('Case dowel', 2, 'case halves', { why: 'two, each may stay in either half' }),
          piece('Case gasket', 1, 'case', { oneTime: true }),
        ],
      },
    ),
    step(
      'Crank and bearings out',
      'Gearbox shafts and drum out as one, then the crank pressed out on its end, never struck.',
      {
        tray: 'case',
        cautions: [
          caution('lifting', 'The crank is heavy and its journals mark: two hands, onto wood.'),
          caution('eyes', 'What is pressed may let go or chip: eye protection, nobody in front of the press.'),
        ],
        pieces: [piece('Main bearing', 2, 'case', { why: 'one a side' })],
      },
    ),
  ]),
});
