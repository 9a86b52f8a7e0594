import { alternatorOut } from './alternator.ts';
import { balancerDriveOut, balancerOut, chainOut, pumpOut } from './balancer-and-pump.ts';
import { covered } from './both-strokes.ts';
import { caseSplit } from './case-halves.ts';
import { type ClutchWork, clutchOut } from './clutch.ts';
import { bearingsOut, type CrankWork, crankFloatFelt, crankMeasured, crankOut } from './crank.ts';
import { gearboxOut, linkageOut } from './gearbox.ts';
import { type FourStrokeWork, manualDecides, type ProcedureData, section } from './procedure.ts';

export const fourStrokeClutch: ClutchWork = {
  springs: 6,
  frictions: 7,
  coverBolts: 7,
  behindCover: 'The kick shaft stays with the case: its spring is not let go.',
};
export const fourStrokeCrank: CrankWork = {
  seals: 4,
  sealWords: 'The seal behind the alternator keeps oil off the taper: it is looked at twice.',
};
export const fourStrokeAlternatorBolts = 5;
export const fourStrokeCaseBolts = 10;

/** Begins where the top end is off: the strip before this one has taken it to the bare case. */
export const fourStrokeCase = (of: FourStrokeWork): ProcedureData => ({
  code: `${of.code}-CASE`,
  name: `Split the case, ${of.name}`,
  kind: 'strip',
  note: manualDecides,
  steps: [
    ...section('Right side', [...clutchOut(fourStrokeClutch), linkageOut, pumpOut]),
    ...section('Left side', [...alternatorOut(fourStrokeAlternatorBolts), balancerDriveOut, chainOut]),
    ...section('Case', [
      crankFloatFelt,
      caseSplit(fourStrokeCaseBolts),
      ...gearboxOut,
      ...balancerOut,
      crankOut,
      ...bearingsOut(fourStrokeCrank),
      crankMeasured,
      covered,
    ]),
  ],
});
