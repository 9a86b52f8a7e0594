import { type Print, rounded } from '#contracts/figures.ts';
import type { LooseFasteners, LooseFastenersFound, LooseWrench, LooseWrenchFound } from '#contracts/loose-fasteners.ts';
import { settingWithAdapter } from '#domain/fasteners/adapter.ts';
import { type FastenerSet, type FastenerStage, usualTolerance } from '#domain/fasteners/fastener-set.ts';
import { looseningOrder, tighteningOrder } from '#domain/fasteners/order.ts';
import { checkPull, nextPull, type Pull, setProgress } from '#domain/fasteners/pulls.ts';
import { afterLoosening, isTorqueToYield } from '#domain/fasteners/reuse.ts';
import { guardTorque } from '#domain/fasteners/typo-guard.ts';
import {
  permissibleDeviation,
  smallestSetting,
  type TorqueWrench,
  wrenchFit,
  wrenchFor,
} from '#domain/fasteners/wrench.ts';
import { guardWords, pullRefusal, wrenchFault } from '#features/assembly/service.ts';
import { quantityAt, refuse } from './body.ts';
import { adapterAt, positionsAt, torqueAt, turnAt } from './fastener-body.ts';

const torquePrint: Print = { unit: 'N.m', decimals: 1 };
const anglePrint: Print = { unit: 'deg', decimals: 0 };
const usualPulls = 5_000;

const figureOf = (stage: FastenerStage) =>
  stage.kind === 'torque' ? rounded(stage.torque, torquePrint) : rounded(stage.angle, anglePrint);

function stagesOf(body: LooseFasteners): readonly FastenerStage[] {
  return (body.stages ?? []).map(({ torque, angle }, index): FastenerStage => {
    const at = `/stages/${index}`;
    const ordinal = index + 1;
    if (torque !== undefined && angle === undefined) {
      return { ordinal, kind: 'torque', torque: torqueAt(torque, `${at}/torque`) };
    }
    if (angle !== undefined && torque === undefined) {
      return { ordinal, kind: 'angle', angle: turnAt(angle, `${at}/angle`) };
    }
    return refuse(at, 'A stage is either a torque or an angle.');
  });
}

function pullAt(given: NonNullable<LooseFasteners['pulls']>[number], stage: FastenerStage | undefined, at: string) {
  const base = { fastener: given.fastener, stage: given.stage };
  return stage?.kind === 'angle'
    ? { ...base, kind: 'angle' as const, angle: turnAt(given.value, `${at}/value`) }
    : { ...base, kind: 'torque' as const, torque: torqueAt(given.value, `${at}/value`) };
}

/** The log pull by pull: what is taken counts for those after it. */
function checkedLog(set: FastenerSet, body: LooseFasteners) {
  const taken: Pull[] = [];
  const log = (body.pulls ?? []).map((given, index) => {
    const stage = set.stages.find(({ ordinal }) => ordinal === given.stage);
    const pull = pullAt(given, stage, `/pulls/${index}`);
    const check = checkPull(set, taken, pull);
    const words = pullRefusal(check, { set, kind: pull.kind, torqueToYield: isTorqueToYield(set) }) ?? null;
    if (words === null) taken.push(pull);
    return { fastener: given.fastener, stage: given.stage, taken: words === null, words };
  });
  return { taken, log };
}

function guarded(set: FastenerSet, stage: FastenerStage) {
  const guard = guardTorque(set, stage);
  return {
    kind: guard.kind,
    shareOfProof: guard.kind === 'not-judged' ? null : guard.shareOfProof,
    words: guardWords(guard, stage.ordinal) ?? null,
  };
}

/** A fastener set without a job: its order, its stages held against the bolt, and a log checked. */
export function looseFasteners(body: LooseFasteners): LooseFastenersFound {
  const set: FastenerSet = {
    code: 'set',
    name: 'This set',
    positions: positionsAt(body.positions, '/positions'),
    orderIsMakers: body.orderIsMakers ?? false,
    thread: body.thread ?? '',
    propertyClass: body.propertyClass ?? '',
    condition: 'dry',
    reuse: body.reuse ?? 'reuse',
    stages: stagesOf(body),
    tolerance: usualTolerance,
  };
  const { taken, log } = checkedLog(set, body);
  const progress = setProgress(set, taken);
  const next = nextPull(set, taken);
  return {
    tightening: [...tighteningOrder(set)],
    loosening: [...looseningOrder(set)],
    stages: set.stages.map((stage) => {
      const { done = [], missing = [] } = progress.stages.find((each) => each.stage === stage.ordinal) ?? {};
      return {
        stage: stage.ordinal,
        figure: figureOf(stage),
        guard: guarded(set, stage),
        done: [...done],
        missing: [...missing],
      };
    }),
    log,
    next:
      next === undefined ? null : { fastener: next.fastener, stage: next.stage.ordinal, figure: figureOf(next.stage) },
    complete: progress.complete,
    torqueToYield: isTorqueToYield(set),
    afterLoosening: afterLoosening(set).kind,
  };
}

/** Which wrench to take for a torque, with an adapter or without, and what is wrong with each that doesn't fit. */
export function looseWrench(body: LooseWrench): LooseWrenchFound {
  const torque = torqueAt(body.torque, '/torque');
  const found =
    body.adapter === undefined
      ? { ok: true as const, setting: torque }
      : settingWithAdapter({ torque, ...adapterAt(body.adapter, '/adapter') });
  if (!found.ok) return refuse('/adapter', 'The adapter reaches back to the hand: it has no lever.');
  const codes = new Set<string>();
  const wrenches = body.wrenches.map(({ code, largest, calibratedUntil, pulls, pullsAllowed }, index): TorqueWrench => {
    const at = `/wrenches/${index}`;
    if (codes.has(code)) refuse(`${at}/code`, `${code} is there twice.`);
    codes.add(code);
    const most = quantityAt(largest, 'torque', `${at}/largest`);
    if (most <= 0) refuse(`${at}/largest`, 'The largest setting of a wrench is more than 0.');
    return {
      code,
      largest: most,
      calibratedUntil,
      pullsSinceCalibration: pulls ?? 0,
      pullsAllowed: pullsAllowed ?? usualPulls,
    };
  });
  return {
    setting: rounded(found.setting, torquePrint),
    take: wrenchFor(wrenches, found.setting, body.day)?.code ?? null,
    wrenches: wrenches.map((wrench) => {
      const fit = wrenchFit(wrench, found.setting, body.day);
      return {
        code: wrench.code,
        fits: fit.ok,
        smallest: rounded(smallestSetting(wrench), torquePrint),
        largest: rounded(wrench.largest, torquePrint),
        deviation: permissibleDeviation(wrench) / 1e6,
        faults: fit.ok ? [] : fit.faults.map((fault) => wrenchFault(fault, wrench.code)),
      };
    }),
  };
}
