import { printOf, rounded, roundedDifference } from '#contracts/figures.ts';
import type { Checked, CheckInstrument, InstrumentFacts, Instruments } from '#contracts/instruments.ts';
import { type QuantityKind, quantityKinds } from '#domain/units/quantity.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findInstruments, type InstrumentRow, insertCheck, lockInstrument } from './queries.ts';

/** A difference finer than the instrument shows (a zero error from a study) keeps one more decimal. */
const finely = (row: { unit: string; decimals: number }) => (base: number) =>
  roundedDifference(base, { ...printOf(row), decimals: row.decimals + 1 });

function checkOf(row: InstrumentRow): InstrumentFacts['lastCheck'] {
  const { checkId, zeroError, master, masterU, checkedById, checkedBy, checkedAt } = row;
  if (checkId === null || zeroError === null || checkedById === null || checkedAt === null) return null;
  return {
    id: checkId,
    zeroError: finely(row)(zeroError),
    master: master ?? '',
    masterUncertainty: finely(row)(masterU ?? 0),
    checkedBy: { id: checkedById, name: checkedBy ?? '' },
    checkedAt,
  };
}

const bladesOf = ({ blades, unit }: InstrumentRow): InstrumentFacts['blades'] =>
  blades.map(({ thickness, tolerance }) => ({
    thickness: rounded(thickness, printOf({ unit, decimals: 3 })),
    tolerance: roundedDifference(tolerance, printOf({ unit, decimals: 4 })),
  }));

function instrumentOf(row: InstrumentRow): InstrumentFacts {
  const difference = finely(row);
  return {
    id: row.id,
    code: row.code,
    name: row.name,
    instrumentKind: row.instrumentKind,
    kind: row.kind,
    unit: row.unit,
    decimals: row.decimals,
    range: { low: rounded(row.rangeLow, printOf(row)), high: rounded(row.rangeHigh, printOf(row)) },
    resolution: difference(row.resolution),
    mpe: difference(row.mpe),
    repeatability: row.repeatability === null ? null : difference(row.repeatability),
    repeatabilityStudyId: row.repeatabilityStudyId,
    blades: bladesOf(row),
    calibratedOn: row.calibratedOn,
    calibrationDueOn: row.calibrationDueOn,
    calibration: row.calibration,
    lastCheck: checkOf(row),
    checkedToday: row.checkedToday,
  };
}

export async function instruments(sql: Sql): Promise<Instruments> {
  return { items: (await findInstruments(sql)).map(instrumentOf) };
}

function kindOf(text: string, code: string): QuantityKind {
  const kind = quantityKinds.find((known) => known === text);
  if (kind === undefined || kind === 'temperature') {
    throw new ProblemError('refused', `${code} measures a ${text}; it has no zero to check.`);
  }
  return kind;
}

/** Records what an instrument showed on its master today. Readings from now on rest on this check. */
export async function checkInstrument(act: Act, asked: { instrumentId: string } & CheckInstrument): Promise<Checked> {
  const instrument = found(await lockInstrument(act.sql, asked.instrumentId), 'such instrument');
  const { code } = instrument;
  if (instrument.retired) throw new ProblemError('conflict', `${code} is out of use. Take another one.`);
  const kind = kindOf(instrument.kind, code);
  const zeroError = baseOf(asked.zeroError, kind, '/zeroError');
  const masterU =
    asked.masterUncertainty === undefined ? 0 : baseOf(asked.masterUncertainty, kind, '/masterUncertainty');
  if (Math.abs(zeroError) > instrument.span) {
    const detail = `${asked.zeroError.value} ${asked.zeroError.unit} is more than the whole range of ${code}. Key what it shows on its master less what the master is.`;
    throw new ProblemError('implausible', detail, { errors: [{ pointer: '/zeroError', detail }] });
  }
  if (masterU < 0) {
    const detail = 'An uncertainty can’t be below nothing.';
    throw new ProblemError('refused', detail, { errors: [{ pointer: '/masterUncertainty', detail }] });
  }
  const master = asked.master?.trim() ?? '';
  const { id, checkedAt } = await insertCheck(act.sql, {
    instrumentId: instrument.id,
    zeroError,
    master,
    masterU,
    checkedById: act.actor.id,
  });
  const shown = finely(instrument);
  await act.event('instrument.checked', { data: { instrument: code, zeroError: shown(zeroError), master } });
  return {
    id,
    zeroError: shown(zeroError),
    master,
    masterUncertainty: shown(masterU),
    checkedBy: { id: act.actor.id, name: act.actor.name },
    checkedAt,
  };
}
