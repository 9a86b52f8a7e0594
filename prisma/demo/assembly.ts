import { type RingClock, usualFaces } from '../../server/domain/build/ring-clock.ts';
import { standardGaps } from '../../server/domain/build/ring-rule.ts';
import { microDegrees } from '../../server/domain/units/quantity.ts';
import { isoOf } from './clock.ts';
import { baseOf, type SheetFigures } from './spec-sheet.ts';
import type { Lot } from './stock.ts';
import { type Act, tell, type Visit } from './visit.ts';
import { known, there } from './world.ts';

const microsOr = <Otherwise>(degrees: number | undefined, otherwise: Otherwise) =>
  degrees === undefined ? otherwise : microDegrees(baseOf(degrees, 'deg'));

/** Where pin, maker or rule of thumb want the gaps of a sheet's rings, their marks as the sheet says. */
function standardPlacing({ rings, ringZones, ringSeparationDegrees, railOffsetDegrees }: SheetFigures) {
  const clock: RingClock = {
    rings: rings.map(({ code, name, degrees, pinDegrees, part }) => ({
      code,
      name,
      part,
      makersAngle: microsOr(degrees, null),
      pin: microsOr(pinDegrees, null),
    })),
    zones: ringZones.map(({ from, to, reason }) => ({
      from: microDegrees(baseOf(from, 'deg')),
      to: microDegrees(baseOf(to, 'deg')),
      reason,
    })),
    leastSeparation: microsOr(ringSeparationDegrees, null),
    railOffset: microsOr(railOffsetDegrees, null),
    angleTolerance: null,
  };
  const found = standardGaps(clock);
  if (!found.ok) throw new Error(`the demo's ring ${found.ring} finds no place`);
  return rings.map(({ code, name, part = 'compression' }) => {
    const { angle } = there(
      found.gaps.find(({ ring }) => ring === code),
      `the gap of ${code}`,
    );
    const faces = usualFaces(part);
    return { ring: code, name, angle, ...(faces === 'either' ? {} : { faces }) };
  });
}

/** Turns the ring gaps to where pin, maker or rule of thumb want them. */
export function placeRings(visit: Visit, act: Act): void {
  const { world, revision } = visit;
  const placed = standardPlacing(revision.sheet);
  world.rows.add('ring_placement', {
    id: world.id('ring_placement', act.at),
    job_id: visit.jobId,
    gaps: placed.map(({ name: _, ...gap }) => gap),
    faults: [],
    marks_well: true,
    placed_by_id: known(world.people, act.by),
    placed_at: isoOf(act.at),
  });
  tell(visit, 'rings.placed', act, {
    gaps: placed.map(({ name, angle, faces }) => ({
      ring: name,
      angle: { value: String(angle / 1e6), unit: 'deg' },
      faces: faces ?? null,
    })),
    faults: [],
    marksWell: true,
  });
}

/** Pulls a whole set, all of a stage before the next; `upTo` leaves it in the middle. */
export function pull(visit: Visit, code: string, act: Act, upTo?: number): void {
  const { world, revision } = visit;
  const set = there(
    revision.sheet.fasteners.find((each) => each.code === code),
    `the set ${code}`,
  );
  let count = 0;
  set.stages.forEach((stage, stageIndex) => {
    const torque = 'newtonMetres' in stage ? stage.newtonMetres : null;
    const wrench = torque === null ? null : torque <= 10 ? 'TW-1' : 'TW-2';
    set.positions.forEach((_, index) => {
      if (upTo !== undefined && count >= upTo) return;
      const at = act.at + count * 20_000;
      count += 1;
      world.rows.add('torque_pull', {
        id: world.id('torque_pull', at),
        job_id: visit.jobId,
        set_code: code,
        fastener: index + 1,
        stage: stageIndex + 1,
        keyed_text: 'newtonMetres' in stage ? String(stage.newtonMetres) : String(stage.degrees),
        keyed_unit: 'newtonMetres' in stage ? 'N.m' : 'deg',
        torque_unm: torque === null ? null : baseOf(torque, 'N.m'),
        angle_udeg: 'degrees' in stage ? baseOf(stage.degrees, 'deg') : null,
        instrument_id: wrench === null ? null : known(world.instruments, wrench).id,
        pulled_by_id: known(world.people, act.by),
        pulled_at: isoOf(at),
      });
    });
  });
  tell(visit, 'torque.pulled', { ...act, at: act.at + count * 20_000 }, { set: set.name, pulls: count });
}

export interface ShimFacts {
  readonly valve: string;
  readonly lash: readonly [number, number];
  readonly fitted: number;
  readonly chosen: number;
  readonly lot: Lot | undefined;
  readonly fromWords: string;
}

/** new shim = fitted + lash − wanted [common practice, geometry]: the lash after is the lash before, less what the shim grew. */
export function chooseShimFor(visit: Visit, act: Act, of: ShimFacts): void {
  const { world, revision } = visit;
  const valve = there(
    revision.sheet.valves.find(({ code }) => code === of.valve),
    `the valve ${of.valve}`,
  );
  const limits = there(
    revision.sheet.dimensions.find(({ code }) => code === `lash-${of.valve}`)?.limits.standard,
    'a lash range',
  );
  const mm = (value: number): number => baseOf(value, 'mm');
  const [low, high] = of.lash;
  const [rangeLow, rangeHigh] = limits.standard;
  const thenLow = mm(low) + mm(of.fitted) - mm(of.chosen);
  const thenHigh = mm(high) + mm(of.fitted) - mm(of.chosen);
  world.rows.add('shim_choice', {
    id: world.id('shim_choice', act.at),
    job_id: visit.jobId,
    valve_code: of.valve,
    lash_low_nm: mm(low),
    lash_high_nm: mm(high),
    fitted_nm: mm(of.fitted),
    wanted_low_nm: mm(of.fitted) + mm(low) - mm(valve.wantedMm),
    wanted_high_nm: mm(of.fitted) + mm(high) - mm(valve.wantedMm),
    chosen_nm: mm(of.chosen),
    then_low_nm: thenLow,
    then_high_nm: thenHigh,
    lot_id: of.lot?.row.id ?? null,
    from_words: of.fromWords,
    guaranteed: thenLow >= mm(rangeLow ?? 0) && thenHigh <= mm(rangeHigh ?? 0),
    chosen_by_id: known(world.people, act.by),
    chosen_at: isoOf(act.at),
  });
  tell(visit, 'shim.chosen', act, {
    valve: valve.name,
    thickness: { value: of.chosen.toFixed(3), unit: 'mm' },
    from: of.fromWords,
  });
}

/** A proof of the sheet, with its sign-off unless that is still to come. */
export function prove(
  visit: Visit,
  code: string,
  act: Act,
  of: { readonly findingId?: string; readonly words: string; readonly signed: boolean },
): void {
  const { world, revision } = visit;
  const proof = there(
    revision.sheet.proofs.find((each) => each.code === code),
    `the proof ${code}`,
  );
  const id = world.id('proof', act.at);
  world.rows.add('proof', {
    id,
    job_id: visit.jobId,
    proof_code: code,
    name: proof.name,
    passed: true,
    words: of.words,
    finding_id: of.findingId ?? null,
    proved_by_id: known(world.people, act.by),
    proved_at: isoOf(act.at),
  });
  tell(visit, 'proof.passed', act, { proof: proof.name, words: of.words });
  if (!of.signed) return;
  const at = act.at + 600_000;
  world.rows.add('sign_off', {
    id: world.id('sign_off', at),
    job_id: visit.jobId,
    proof_id: id,
    opening_id: null,
    sheet_job_id: null,
    words: '',
    signed_by_id: known(world.people, 'maren'),
    signed_at: isoOf(at),
  });
  tell(visit, 'proof.signed', { at, by: 'maren' }, { proof: proof.name });
}
