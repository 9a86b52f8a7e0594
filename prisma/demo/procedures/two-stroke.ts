import { manualDecides, type ProcedureData, piece, step } from './procedure.ts';

const strip: ProcedureData = {
  code: 'O125-STRIP',
  name: 'Strip the top end, Ostrel 125 T',
  kind: 'strip',
  note: manualDecides,
  steps: [
    step('Make it safe', 'Engine cold. Fuel off, tank and pipe away, plug lead earthed.', {
      caution: 'Fuel vapour: no flame, doors open. Coolant is under pressure while hot: open only cold.',
      pieces: [piece('Pipe spring', 2, 'exhaust flange', { why: 'two hooks' })],
    }),
    step('Drain', 'Coolant and gearbox oil out.', {
      caution: 'Gloves; collect used oil and coolant by local rules.',
      pieces: [
        piece('Drain plug', 1, 'case, underside'),
        piece('Drain plug washer', 1, 'case, underside', { oneTime: true, why: 'a crush washer seals once' }),
      ],
    }),
    step('Reed block out', 'Carburettor away; rag into the port at once.', {
      tray: 'piston',
      pieces: [
        piece('Reed block', 1, 'intake'),
        piece('Reed block screw', 4, 'intake'),
        piece('Reed gasket', 1, 'intake', { oneTime: true }),
      ],
    }),
    step('Head off', 'Nuts criss-cross from the outside in. From here the engine is open.', {
      fastenerSet: 'head-nuts',
      pieces: [
        piece('Spark plug', 1, 'head'),
        piece('Head nut', 6, 'head'),
        piece('Head nut washer', 6, 'under the head nuts', { why: 'one a nut; they stick in the wells' }),
        piece('Head', 1, 'cylinder', { layer: 'head' }),
        piece('Head o-ring', 2, 'cylinder', { oneTime: true, why: 'an inner and an outer one' }),
      ],
    }),
    step('Cylinder off', 'Straight up; a clean rag into the case mouth before anything else.', {
      fastenerSet: 'base-nuts',
      pieces: [
        piece('Base nut', 4, 'case'),
        piece('Base nut washer', 4, 'under the base nuts', { why: 'one a nut' }),
        piece('Cylinder', 1, 'case', { layer: 'cylinder' }),
        piece('Cylinder dowel', 2, 'cylinder or case', { why: 'two, each may stay in either part' }),
        piece('Base gasket', 1, 'case', { oneTime: true }),
        piece('Rag in the case mouth', 1, 'case mouth', { why: 'put in by us: it comes out before closing' }),
      ],
    }),
    step('Piston off', 'Rag in place, circlip out, pin out by hand.', {
      caution: 'Circlips fly: eye protection, and the rag closes the case.',
      secondPerson: true,
      tray: 'piston',
      pieces: [
        piece('Circlip', 2, 'piston', { oneTime: true, why: 'never used again' }),
        piece('Piston pin', 1, 'piston', { matchedSet: 'piston and pin' }),
        piece('Small-end bearing', 1, 'rod'),
        piece('Piston', 1, 'rod', { matchedSet: 'piston and pin' }),
        piece('Ring', 2, 'piston'),
      ],
    }),
  ],
};

const assemble: ProcedureData = {
  code: 'O125-BUILD',
  name: 'Assemble the top end, Ostrel 125 T',
  kind: 'assemble',
  note: manualDecides,
  steps: [
    step('Clean and oiled', 'Ports and passages blown through, bore washed and oiled at once.', {
      caution: 'Compressed air: eye protection. Solvent: no flame, ventilate.',
    }),
    step('Ring gaps in this bore', 'Each ring squared in the bore, clear of the ports.', {
      dimension: 'ring-gap-top',
      tray: 'piston',
    }),
    step('Piston on', 'Rings on their pegs, new circlips seated all round: the second person feels them.', {
      caution: 'Circlips fly: eye protection, and the rag closes the case.',
      secondPerson: true,
      tray: 'piston',
    }),
    step('Cylinder on', 'New base gasket, ring ends on their pegs, rag out; never turn the cylinder on the rings.', {
      fastenerSet: 'base-nuts',
    }),
    step('Head on', 'New o-rings in their grooves; all of a stage before the next.', { fastenerSet: 'head-nuts' }),
    step('Reed block in, turned over', 'New gasket; turned over by hand twice.', {
      caution: 'Plug lead earthed, fingers clear.',
    }),
  ],
};

const prove: ProcedureData = {
  code: 'O125-PROVE',
  name: 'Prove, Ostrel 125 T',
  kind: 'prove',
  note: manualDecides,
  steps: [
    step('Crankcase leak-down', 'Intake and exhaust blanked off.', {
      dimension: 'leak-down',
      caution: 'Never above the pressure in the manual.',
    }),
    step('First start', 'Kill switch tried first; listen, look for leaks.', {
      caution: 'Exhaust led outdoors, extinguisher at hand.',
      secondPerson: true,
    }),
    step('Heat cycles', 'Three times warm and cold, head nuts checked cold.', {
      caution: 'Hot parts; open the cooling circuit only cold.',
    }),
  ],
};

export const twoStrokeProcedures: readonly ProcedureData[] = [strip, assemble, prove];
