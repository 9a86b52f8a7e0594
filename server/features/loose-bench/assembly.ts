import { type Print, quantity } from '#contracts/figures.ts';
import type { LooseShim, LooseShimFound, LooseTorque, LooseTorqueFound } from '#contracts/loose-bench.ts';
import type { QuantityInterval } from '#contracts/wire.ts';
import { settingWithAdapter } from '#domain/fasteners/adapter.ts';
import { looseningOrder, tighteningOrder } from '#domain/fasteners/order.ts';
import { guardTorque, type TorqueGuard } from '#domain/fasteners/typo-guard.ts';
import { chooseShim, type ShimChoice, type ShimSource } from '#domain/lash/choose-shim.ts';
import type { LengthInterval } from '#domain/lash/interval.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { intervalAt, lengthAt, quantityIf, refuse } from './body.ts';
import { adapterAt, positionsAt, torqueAt } from './fastener-body.ts';

const millimetres: Print = { unit: 'mm', decimals: 2 };
const torque: Print = { unit: 'N.m', decimals: 1 };

const intervalOnWire = ({ low, high }: LengthInterval): QuantityInterval => ({
  low: quantity(low, millimetres).value,
  high: high === null ? null : quantity(high, millimetres).value,
  unit: 'mm',
});

const said = (interval: LengthInterval): string => {
  const { low, high } = intervalOnWire(interval);
  if (low === high) return `${low} mm`;
  return high === null ? `${low} mm or more` : `${low} to ${high} mm`;
};

function sourceOf(asked: LooseShim['candidates'][number], index: number): ShimSource {
  const name = asked.name ?? String(index + 1).padStart(4, '0');
  switch (asked.from) {
    case 'stays':
      return { kind: 'stays' };
    case 'engine':
      return { kind: 'engine', valve: name };
    case 'bin':
      return { kind: 'bin', lotId: name, receivedAt: '' };
    case 'buy':
      return { kind: 'buy', partId: name };
  }
}

function shimWords(choice: ShimChoice): string {
  if (choice.ok) return `It brings the lash to ${said(choice.after)}: ${choice.standing} to be in range.`;
  const { reason } = choice;
  if (reason.kind === 'not-stocked') return `None of these will do: a shim of ${said(reason.needed)} is needed.`;
  return `A shim of ${said(reason.needed)} is needed, ${reason.side} than any the maker has: look at the valve and its seat.`;
}

/** The shim for one valve, out of the candidates named. */
export function looseShim(body: LooseShim): LooseShimFound {
  const range = { low: lengthAt(body.range.low, '/range/low'), high: lengthAt(body.range.high, '/range/high') };
  if (range.low > range.high) return refuse('/range', 'The lower end lies above the upper.');
  const thickness = (
    given: { thickness: LooseShim['wanted']; uncertainty?: LooseShim['wanted'] | undefined },
    at: string,
  ) => ({
    value: lengthAt(given.thickness, `${at}/thickness`),
    uncertainty: quantityIf(given.uncertainty, 'length', `${at}/uncertainty`) ?? nanometres(0),
  });
  const shimDiameter = lengthAt(body.shimDiameter, '/shimDiameter');
  const choice = chooseShim(
    {
      code: 'valve',
      fitted: { measured: thickness(body.fitted, '/fitted'), printed: null },
      lash: intervalAt(body.lash, '/lash'),
      wanted: lengthAt(body.wanted, '/wanted'),
      range,
      shimDiameter,
    },
    body.candidates.map((asked, index) => ({
      source: sourceOf(asked, index),
      thickness: thickness(asked, `/candidates/${index}`),
      shimDiameter: quantityIf(asked.diameter, 'length', `/candidates/${index}/diameter`) ?? shimDiameter,
      count: asked.count ?? 1,
    })),
    {
      low: lengthAt(body.makersSizes.low, '/makersSizes/low'),
      high: lengthAt(body.makersSizes.high, '/makersSizes/high'),
    },
  );
  const wanted = intervalOnWire(choice.wanted);
  if (!choice.ok) return { wanted, chosen: null, after: null, standing: 'out', words: shimWords(choice) };
  const { source } = choice.chosen;
  const index = body.candidates.findIndex(
    (asked, at) => JSON.stringify(sourceOf(asked, at)) === JSON.stringify(source),
  );
  return {
    wanted,
    chosen: {
      from: source.kind,
      name: body.candidates[index]?.name ?? '',
      thickness: quantity(choice.chosen.thickness.value, millimetres),
    },
    after: intervalOnWire(choice.after),
    standing: choice.standing,
    words: shimWords(choice),
  };
}

function guardWords(guard: TorqueGuard): string {
  const other =
    guard.kind === 'not-judged' || guard.swap === null ? '' : ` Was it meant as another unit: ${guard.swap}?`;
  switch (guard.kind) {
    case 'not-judged':
      return guard.why === 'thread-unknown'
        ? 'The thread is not known, so it is not judged.'
        : 'The class is not known, so it is not judged.';
    case 'usual':
      return 'Up to three quarters of the proof load: usual.';
    case 'note':
      return 'More than three quarters of the proof load: look it up in the manual.';
    case 'warn':
      return `More than the proof load: look it up in the manual before pulling.${other}`;
  }
}

/** A torque held against what the bolt stands, the setting with an adapter, and the order of tightening. */
export function looseTorque(body: LooseTorque): LooseTorqueFound {
  const figure = torqueAt(body.torque, '/torque');
  const guard = guardTorque(body, { ordinal: 1, kind: 'torque', torque: figure });
  const { adapter } = body;
  const setting =
    adapter === undefined ? undefined : settingWithAdapter({ torque: figure, ...adapterAt(adapter, '/adapter') });
  if (setting?.ok === false) return refuse('/adapter', 'The adapter reaches back to the hand: it has no lever.');
  const set = { orderIsMakers: false, positions: positionsAt(body.positions ?? [], '/positions') };
  const judged = guard.kind === 'not-judged' ? undefined : guard;
  return {
    guard: {
      kind: guard.kind,
      shareOfProof: judged?.shareOfProof ?? null,
      atThreeQuartersOfProof: judged === undefined ? null : quantity(judged.atThreeQuarters, torque),
      words: guardWords(guard),
    },
    setting: setting === undefined ? null : quantity(setting.setting, torque),
    tightening: [...tighteningOrder(set)],
    loosening: [...looseningOrder(set)],
  };
}
