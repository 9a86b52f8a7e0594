import { alternatorIn } from './alternator.ts';
import { balancerIn, balancerTimed, chainIn, pumpIn, strainerIn } from './balancer-and-pump.ts';
import { cleanFaces, coveredForTopEnd, kitLaidOut } from './both-strokes.ts';
import { caseClosed } from './case-halves.ts';
import { clutchIn } from './clutch.ts';
import { bearingsIn, crankFloatProved, crankIn } from './crank.ts';
import {
  fourStrokeAlternatorBolts,
  fourStrokeCaseBolts,
  fourStrokeClutch,
  fourStrokeCrank,
} from './four-stroke-case.ts';
import { gearboxIn, linkageIn, linkageWrong } from './gearbox.ts';
import { type FourStrokeWork, manualDecides, type ProcedureData, section } from './procedure.ts';

/** From two bare halves to a bottom end that the top end can be built on. */
export const fourStrokeBottom = (of: FourStrokeWork): ProcedureData => ({
  code: `${of.code}-BOTTOM`,
  name: `Assemble the bottom end, ${of.name}`,
  kind: 'assemble',
  note: manualDecides,
  steps: [
    ...section('Before a part goes in', [kitLaidOut, cleanFaces, ...bearingsIn(fourStrokeCrank)]),
    ...section('Between the halves', [...crankIn, balancerIn, ...gearboxIn, strainerIn]),
    ...section('Case', [
      ...caseClosed({
        bolts: fourStrokeCaseBolts,
        between: 'bearings oiled, every end washer on its shaft, rod up, strainer home',
      }),
      crankFloatProved,
    ]),
    ...section('Left side', [balancerTimed, chainIn, ...alternatorIn(fourStrokeAlternatorBolts)]),
    ...section('Right side', [pumpIn, linkageIn, linkageWrong, ...clutchIn(fourStrokeClutch), coveredForTopEnd]),
  ],
});
