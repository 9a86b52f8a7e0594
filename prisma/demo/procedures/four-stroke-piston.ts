import { asBuilt, caution, circlipsFly, type StepData, step } from './procedure.ts';

export const cylinderAndPistonOn: readonly StepData[] = [
  step(
    'Ring gaps in this bore',
    'Each ring squared with the piston crown in the bore it will run in, its gap taken with blades.',
    {
      readings: asBuilt('ring-gap-top', 'ring-gap-second'),
      tray: 'piston',
      cautions: [
        caution('damage', 'Too tight a gap seizes the engine: a ring is dressed at its end faces only, or changed.'),
      ],
    },
  ),
  step(
    'Rings on',
    'Spacer first, its ends butted and not overlapped, then both rails, then second and top ring, marks towards the crown. Opened no further than they must be. Gaps turned to the places of the sheet.',
    {
      tray: 'piston',
      cautions: [
        caution('cuts', 'Rails cut like blades: they are walked into the groove, not drawn through the fingers.'),
      ],
      photo: 'The spacer’s ends, butted',
    },
  ),
  step(
    'Piston on',
    'Arrow to the exhaust. Pin oiled, new circlips with the opening away from the notch, never over-bent. The second person turns each circlip in its groove and feels it all round.',
    {
      cautions: circlipsFly,
      secondPerson: true,
      tray: 'piston',
      photo: 'Both circlips in their grooves',
    },
  ),
  step(
    'Cylinder on',
    'New base gasket dry or as the manual says, both dowels in. Bore and rings oiled; rings pressed in by hand or clamp, never forced. Then the rag out of the case mouth, whole, and off the tally.',
    {
      cautions: [
        caution('cuts', 'Fingers between cylinder and case are under its whole weight: chain pulled up with a hook.'),
      ],
    },
  ),
];
