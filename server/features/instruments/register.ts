import { difference, type Print, printOf } from '#contracts/figures.ts';
import type { AddInstrument, Calibrate, Calibrated, Retire } from '#contracts/instruments.ts';
import { type QuantityKind, quantityKindOf } from '#domain/units/quantity.ts';
import { findUnitCode, unitCodeOf, unitOf, unitsOfKind } from '#domain/units/unit-table.ts';
import type { Act } from '#platform/act.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockInstrument } from './queries.ts';
import { insertBlade, insertCalibration, insertInstrument, updateRetired } from './register-queries.ts';

function refuse(pointer: string, detail: string): never {
  throw new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
}

function unitFor(text: string, kind: QuantityKind): string {
  const unit = findUnitCode(text);
  if (unit !== undefined && unitOf(unit).kind === kind) return unit;
  const detail = `"${text}" does not measure a ${kind}. Use one of ${unitsOfKind(kind).join(', ')}.`;
  throw new ProblemError('unit-wrong', detail, { errors: [{ pointer: '/unit', detail }] });
}

/** Everything an instrument is asked for, in base units; what can't be is refused with its field. */
function registered(asked: AddInstrument) {
  const { kind } = asked;
  const unit = unitFor(asked.unit, kind);
  const low = baseOf(asked.range.low, kind, '/range/low');
  const high = baseOf(asked.range.high, kind, '/range/high');
  if (low >= high) refuse('/range/high', 'The range must end above where it begins.');
  const resolution = baseOf(asked.resolution, kind, '/resolution');
  if (resolution <= 0) refuse('/resolution', 'A resolution is more than nothing.');
  const mpe = baseOf(asked.mpe, kind, '/mpe');
  if (mpe < 0) refuse('/mpe', 'A maximum permissible error is keyed without its sign.');
  const local = asked.localUncertainty;
  const localU = local === undefined ? null : baseOf(local, kind, '/localUncertainty');
  if (localU !== null && localU < 0) refuse('/localUncertainty', 'An uncertainty can’t be below nothing.');
  return { unit, low, high, resolution, mpe, localU };
}

function bladesOf(asked: AddInstrument) {
  const blades = (asked.blades ?? []).map(({ thickness, tolerance }, index) => ({
    thickness: baseOf(thickness, 'length', `/blades/${index}/thickness`),
    tolerance: baseOf(tolerance, 'length', `/blades/${index}/tolerance`),
  }));
  for (const [index, { thickness, tolerance }] of blades.entries()) {
    if (thickness <= 0) refuse(`/blades/${index}/thickness`, 'A blade has a thickness.');
    if (tolerance < 0) refuse(`/blades/${index}/tolerance`, 'A tolerance is keyed without its sign.');
    if (blades.findIndex((other) => other.thickness === thickness) < index) {
      refuse(`/blades/${index}/thickness`, 'This blade is in the set already.');
    }
  }
  if (blades.length > 0 && asked.kind !== 'length') refuse('/blades', 'Only a gauge for lengths has blades.');
  return blades;
}

/** Adds an instrument; readings may be taken with it from then on. */
export async function addInstrument(act: Act, asked: AddInstrument): Promise<{ id: string }> {
  const { code, name, instrumentKind, kind, decimals } = asked;
  const blades = bladesOf(asked);
  const facts = { code: code.trim(), name: name.trim(), instrumentKind: instrumentKind.trim(), kind, decimals };
  const id = await insertInstrument(act.sql, { ...facts, ...registered(asked) });
  for (const blade of blades) await insertBlade(act.sql, { instrumentId: id, ...blade });
  await act.event('instrument.added', { data: { instrument: facts.code, name: facts.name } });
  return { id };
}

async function inUse(act: Act, id: string) {
  const instrument = found(await lockInstrument(act.sql, id), 'such instrument');
  if (instrument.retired) throw new ProblemError('conflict', `${instrument.code} is out of use already.`);
  return instrument;
}

const finely = ({ unit, decimals }: { unit: string; decimals: number }): Print => ({
  unit: unitCodeOf(unit),
  decimals: decimals + 1,
});

/** Writes a certificate down; the register follows the newest. */
export async function calibrate(act: Act, asked: { instrumentId: string } & Calibrate): Promise<Calibrated> {
  const instrument = await inUse(act, asked.instrumentId);
  const { calibratedOn, dueOn } = asked;
  if (dueOn <= calibratedOn) refuse('/dueOn', 'It falls due after the day it was calibrated.');
  if (calibratedOn > instrument.today) refuse('/calibratedOn', 'A certificate can’t be of a day to come.');
  const mpe =
    asked.mpe === undefined ? instrument.mpe : Number(baseOf(asked.mpe, quantityKindOf(instrument.kind), '/mpe'));
  if (mpe < 0) refuse('/mpe', 'A maximum permissible error is keyed without its sign.');
  const certificate = asked.certificate?.trim() ?? '';
  const id = await insertCalibration(act.sql, {
    instrumentId: instrument.id,
    calibratedOn,
    dueOn,
    certificate,
    mpe,
    recordedById: act.actor.id,
  });
  await act.event('instrument.calibrated', { data: { instrument: instrument.code, calibratedOn, dueOn, certificate } });
  return { id, calibratedOn, dueOn, certificate, mpe: difference(mpe, finely({ ...printOf(instrument) })) };
}

/** Takes an instrument out of use: it stays in what it measured, and nobody is offered it again. */
export async function retire(act: Act, asked: { instrumentId: string } & Retire): Promise<{ id: string }> {
  const { id, code } = await inUse(act, asked.instrumentId);
  await updateRetired(act.sql, id);
  await act.event('instrument.retired', { data: { instrument: code, reason: asked.reason.trim() } });
  return { id };
}
