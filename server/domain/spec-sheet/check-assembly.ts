import { usualFaces } from '#domain/build/ring-clock.ts';
import type { QuantityKind } from '#domain/units/quantity.ts';
import type { CheckedFasteners, CheckedRing, CheckedSheet, CheckedValve } from './checked.ts';
import type { Printed, PrintedFasteners, PrintedRing, PrintedValve, SheetDocument } from './document.ts';
import { type Faults, readPrinted, tellTwice } from './faults.ts';

type At = { readonly faults: Faults; readonly pointer: string };
type Range = { readonly above: number; readonly most: number; readonly words: string };

const fullTurn = 360_000_000;
const someTurn: Range = { above: 0, most: fullTurn, words: 'above 0° and at most 360°' };
const onTheClock: Range = { above: -1, most: fullTurn - 1, words: 'from 0° to below 360°' };
const apart: Range = { above: -1, most: fullTurn / 2, words: 'from 0° to 180°' };
const aboveNothing: Range = { above: 0, most: Number.MAX_SAFE_INTEGER, words: 'above nothing' };

/** A figure within a range, in base units; 0 where it is wrong, which was told. */
function within(printed: Printed, of: { readonly kind: QuantityKind; readonly range: Range }, at: At): number {
  const base = readPrinted(printed, { kind: of.kind, ...at });
  if (base === undefined) return 0;
  if (base <= of.range.above || base > of.range.most) {
    at.faults.add(`${at.pointer}/value`, `${printed.value} ${printed.unit} must be ${of.range.words}.`);
  }
  return base;
}

function checkFasteners(set: PrintedFasteners, { faults, pointer }: At): CheckedFasteners {
  const at = (where: string): At => ({ faults, pointer: `${pointer}/${where}` });
  const units = set.stages.flatMap(({ torque }) => (torque === null ? [] : [torque.unit]));
  const unit = units[0] ?? 'N.m';
  const stages = set.stages.map(({ torque, angle }, index) => {
    const where = `stages/${index}`;
    if ((torque === null) === (angle === null))
      faults.add(`${pointer}/${where}`, 'A stage is either a torque or an angle.');
    if (torque !== null && torque.unit !== unit)
      faults.add(`${pointer}/${where}/torque/unit`, `The first stage is in ${unit}; all of a set are in one unit.`);
    return {
      torqueUnm:
        torque === null ? null : within(torque, { kind: 'torque', range: aboveNothing }, at(`${where}/torque`)),
      angleUdeg: angle === null ? null : within(angle, { kind: 'angle', range: someTurn }, at(`${where}/angle`)),
    };
  });
  if (set.stages.length === 0) faults.add(`${pointer}/stages`, 'Say to what it is tightened.');
  if (set.positions.length === 0) faults.add(`${pointer}/positions`, 'Say where its fasteners are.');
  const length = (printed: Printed, where: string) => readPrinted(printed, { kind: 'length', ...at(where) }) ?? 0;
  return {
    ...set,
    unit,
    positions: set.positions.map(({ x, y }, index) => ({
      xNm: length(x, `positions/${index}/x`),
      yNm: length(y, `positions/${index}/y`),
    })),
    stages,
  };
}

type Lash = { readonly code: string; readonly kind: QuantityKind };

function tellLash(valve: PrintedValve, dimensions: readonly Lash[], { faults, pointer }: At): void {
  const lash = dimensions.find(({ code }) => code === valve.dimension);
  if (lash === undefined)
    faults.add(`${pointer}/dimension`, `There is no dimension "${valve.dimension}" on this sheet.`);
  else if (lash.kind !== 'length')
    faults.add(`${pointer}/dimension`, `"${valve.dimension}" is a ${lash.kind}; lash is a length.`);
}

/** A shim's sizes and diameter go with shims, a pitch with screws. */
function tellAdjuster({ adjuster, shimDiameter, shimSizes, screwPitch }: PrintedValve, { faults, pointer }: At): void {
  if (adjuster === 'screw') {
    if (screwPitch === null) faults.add(`${pointer}/screwPitch`, 'A screw adjuster needs the pitch of its thread.');
    if (shimDiameter !== null) faults.add(`${pointer}/shimDiameter`, 'A screw adjuster has no shim.');
    if (shimSizes !== null) faults.add(`${pointer}/shimSizes`, 'A screw adjuster has no shim.');
    return;
  }
  if (shimDiameter === null) faults.add(`${pointer}/shimDiameter`, 'Only shims of the right diameter count: give it.');
  if (shimSizes === null) faults.add(`${pointer}/shimSizes`, 'Give the thinnest and the thickest shim that is made.');
  if (screwPitch !== null) faults.add(`${pointer}/screwPitch`, 'A shim has no thread.');
}

function checkValve(valve: PrintedValve, dimensions: readonly Lash[], at: At): CheckedValve {
  const { faults, pointer } = at;
  tellLash(valve, dimensions, at);
  tellAdjuster(valve, at);
  const length = (printed: Printed | undefined | null, where: string) =>
    printed === undefined || printed === null
      ? null
      : within(printed, { kind: 'length', range: aboveNothing }, { faults, pointer: `${pointer}/${where}` });
  const shimLowNm = length(valve.shimSizes?.low, 'shimSizes/low');
  const shimHighNm = length(valve.shimSizes?.high, 'shimSizes/high');
  if (shimLowNm !== null && shimHighNm !== null && shimLowNm > shimHighNm)
    faults.add(`${pointer}/shimSizes/low`, 'The thinnest shim is thicker than the thickest.');
  const { code, name, side, dimension, adjuster } = valve;
  return {
    code,
    name,
    side,
    dimension,
    adjuster,
    wantedNm: length(valve.wanted, 'wanted') ?? 0,
    shimDiameterNm: length(valve.shimDiameter, 'shimDiameter'),
    shimLowNm,
    shimHighNm,
    screwPitchNm: length(valve.screwPitch, 'screwPitch'),
  };
}

function checkRing(ring: PrintedRing, at: At): CheckedRing {
  const { code, name, angle, pin, part = 'compression', mark = '' } = ring;
  const faces = ring.faces ?? usualFaces(part);
  const onClock = (printed: Printed | null | undefined, where: string) =>
    printed === null || printed === undefined
      ? null
      : within(printed, { kind: 'angle', range: onTheClock }, { faults: at.faults, pointer: `${at.pointer}/${where}` });
  const checked = { angleUdeg: onClock(angle, 'angle'), pinUdeg: onClock(pin, 'pin') };
  if (checked.angleUdeg !== null && checked.pinUdeg !== null)
    at.faults.add(`${at.pointer}/angle`, 'A pin holds this ring: leave the angle empty, or take the pin out.');
  return { code, name, part, mark: mark.trim(), faces, ...checked };
}

const tellCodes = (list: 'fasteners' | 'rings' | 'valves' | 'proofs', document: SheetDocument, faults: Faults): void =>
  tellTwice(
    document[list].map(({ code }) => code),
    faults,
    (index) => `/${list}/${index}/code`,
  );

/** What a sheet says of putting the engine together and proving it, in base units; tells what can't be. */
export function checkAssembly(document: SheetDocument, faults: Faults): Omit<CheckedSheet, 'places' | 'dimensions'> {
  for (const list of ['fasteners', 'rings', 'valves', 'proofs'] as const) tellCodes(list, document, faults);
  for (const [index, { dimension }] of document.proofs.entries()) {
    if (dimension !== null && !document.dimensions.some(({ code }) => code === dimension))
      faults.add(`/proofs/${index}/dimension`, `There is no dimension "${dimension}" on this sheet.`);
  }
  const angle = (printed: Printed, range: Range, pointer: string) =>
    within(printed, { kind: 'angle', range }, { faults, pointer });
  return {
    fasteners: document.fasteners.map((set, index) => checkFasteners(set, { faults, pointer: `/fasteners/${index}` })),
    ringSeparationUdeg:
      document.ringSeparation === null ? null : angle(document.ringSeparation, apart, '/ringSeparation'),
    railOffsetUdeg:
      document.railOffset === null || document.railOffset === undefined
        ? null
        : angle(document.railOffset, apart, '/railOffset'),
    rings: document.rings.map((ring, index) => checkRing(ring, { faults, pointer: `/rings/${index}` })),
    ringZones: document.ringZones.map(({ from, to, reason }, index) => ({
      fromUdeg: angle(from, onTheClock, `/ringZones/${index}/from`),
      toUdeg: angle(to, onTheClock, `/ringZones/${index}/to`),
      reason,
    })),
    valves: document.valves.map((valve, index) =>
      checkValve(valve, document.dimensions, { faults, pointer: `/valves/${index}` }),
    ),
  };
}
