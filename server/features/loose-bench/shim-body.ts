import type { LooseShims } from '#contracts/loose-shims.ts';
import type { Quantity } from '#contracts/wire.ts';
import type { ShimmedHead, SizedValve, StoredShims } from '#domain/lash/heads.ts';
import type { AllowedRange, LengthInterval } from '#domain/lash/interval.ts';
import type { Thickness } from '#domain/lash/shim.ts';
import { type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { intervalAt, lengthAt, refuse } from './body.ts';

type Valve = LooseShims['heads'][number]['valves'][number];

/** Far past any shim or lash, and still exact when many are added up. */
const MOST = nanometres(1_000_000_000);

function shortAt(given: Quantity, pointer: string): Nanometres {
  const length = lengthAt(given, pointer);
  if (Math.abs(length) > MOST) refuse(pointer, 'is more than a metre: no shim and no lash is.');
  return length;
}

function positiveAt(given: Quantity, pointer: string): Nanometres {
  const length = shortAt(given, pointer);
  return length > 0 ? length : refuse(pointer, 'must be above zero.');
}

function rangeAt({ low, high }: { low: Quantity; high: Quantity }, pointer: string): AllowedRange {
  const range = { low: shortAt(low, `${pointer}/low`), high: shortAt(high, `${pointer}/high`) };
  if (range.low > range.high) refuse(pointer, 'The lower end lies above the upper.');
  return range;
}

function thicknessAt(
  given: { readonly thickness: Quantity; readonly uncertainty?: Quantity | undefined },
  pointer: string,
): Thickness {
  const uncertainty =
    given.uncertainty === undefined ? nanometres(0) : shortAt(given.uncertainty, `${pointer}/uncertainty`);
  if (uncertainty < 0) refuse(`${pointer}/uncertainty`, 'lies below zero.');
  return { value: positiveAt(given.thickness, `${pointer}/thickness`), uncertainty };
}

function lashAt(given: Valve['lash'], pointer: string): LengthInterval {
  const lash = intervalAt(given, pointer);
  if (lash.low < 0) refuse(`${pointer}/low`, 'lies below zero.');
  if (Math.max(lash.low, lash.high ?? 0) > MOST) refuse(pointer, 'is more than a metre: no shim and no lash is.');
  return lash;
}

/** What is the same of a valve with a shim and one with a screw. */
export interface ReadValve {
  readonly head: string;
  readonly code: string;
  readonly lash: LengthInterval;
  readonly wanted: Nanometres;
  readonly range: AllowedRange;
  /** null: it has a shim. */
  readonly screwPitch: Nanometres | null;
}

export interface ReadShims {
  readonly heads: readonly ShimmedHead[];
  readonly stored: readonly StoredShims[];
  readonly valves: readonly ReadValve[];
}

function refuseTwins(names: readonly string[], pointerOf: (index: number) => string): void {
  const twin = names.findIndex((one, index) => names.indexOf(one) !== index);
  if (twin >= 0) refuse(pointerOf(twin), `"${names[twin]}" is there twice.`);
}

interface OfValve {
  readonly head: string;
  readonly shimDiameter: Nanometres;
  readonly makersSizes: AllowedRange;
  readonly pointer: string;
}

/** Reads a valve; with a shim in it also as one to be shimmed. */
function valveAt(given: Valve, of: OfValve) {
  const { head, shimDiameter, makersSizes, pointer } = of;
  if ((given.fitted === undefined) === (given.screwPitch === undefined)) {
    refuse(pointer, 'A valve has either a shim (fitted) or a screw (screwPitch).');
  }
  const valve: ReadValve = {
    head,
    code: given.valve,
    lash: lashAt(given.lash, `${pointer}/lash`),
    wanted: shortAt(given.wanted, `${pointer}/wanted`),
    range: rangeAt(given.range, `${pointer}/range`),
    screwPitch: given.screwPitch === undefined ? null : positiveAt(given.screwPitch, `${pointer}/screwPitch`),
  };
  if (given.fitted === undefined) return { valve, shimmed: [] };
  const { code, lash, wanted, range } = valve;
  const fitted = { measured: thicknessAt(given.fitted, `${pointer}/fitted`), printed: null };
  const shimmed: SizedValve = { code, fitted, lash, wanted, range, shimDiameter, makersSizes };
  return { valve, shimmed: [shimmed] };
}

function storedAt(given: LooseShims['stored'][number], of: { pointer: string; diameter: Nanometres }): StoredShims {
  const { pointer, diameter } = of;
  const shared = {
    thickness: thicknessAt(given, pointer),
    shimDiameter: given.diameter === undefined ? diameter : positiveAt(given.diameter, `${pointer}/diameter`),
  };
  return given.from === 'bin'
    ? { ...shared, source: { kind: 'bin', lotId: given.name, receivedAt: '' }, count: given.count ?? 1 }
    : { ...shared, source: { kind: 'buy', partId: given.name }, count: given.count ?? 1_000 };
}

/** Reads heads and what is in store for them, or refuses with the pointer to what is wrong. */
export function shimsOf(body: LooseShims): ReadShims {
  refuseTwins(
    body.heads.map(({ name }) => name),
    (index) => `/heads/${index}/name`,
  );
  refuseTwins(
    body.stored.map(({ from, name }) => `${from} ${name}`),
    (index) => `/stored/${index}/name`,
  );
  const diameters = body.heads.map(({ shimDiameter }, index) =>
    positiveAt(shimDiameter, `/heads/${index}/shimDiameter`),
  );
  const valves = body.heads.map((head, index) => {
    refuseTwins(
      head.valves.map(({ valve }) => valve),
      (at) => `/heads/${index}/valves/${at}/valve`,
    );
    const shimDiameter = diameters[index] ?? nanometres(0);
    const makersSizes = rangeAt(head.makersSizes, `/heads/${index}/makersSizes`);
    return head.valves.map((valve, at) =>
      valveAt(valve, { head: head.name, shimDiameter, makersSizes, pointer: `/heads/${index}/valves/${at}` }),
    );
  });
  return {
    valves: valves.flatMap((ofHead) => ofHead.map(({ valve }) => valve)),
    heads: body.heads.map(({ name }, index) => ({
      name,
      valves: (valves[index] ?? []).flatMap(({ shimmed }) => shimmed),
    })),
    stored: body.stored.map((one, index) =>
      storedAt(one, { pointer: `/stored/${index}`, diameter: diameters[0] ?? nanometres(0) }),
    ),
  };
}
