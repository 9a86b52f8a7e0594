import { quantity } from '#contracts/figures.ts';
import type { Families, SpecSheet } from '#contracts/specs.ts';
import { unitCodeOf } from '#domain/units/unit-table.ts';
import type { Database, Models, Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import {
  findDimensions,
  findFamilies,
  findLimits,
  findPlaces,
  findPositions,
  findRest,
  findRevision,
} from './queries.ts';
import { type Sheet, sheetOf } from './sheet.ts';
import { angleOnWire, dimensionOnWire, lengthOnWire, placeOnWire } from './wire.ts';

export {
  type DimensionOnSheet,
  definitionOf,
  limitsFor,
  type Sheet,
  standardClass,
} from './sheet.ts';
export { factsOnWire, limitsOnWire, placeOnWire } from './wire.ts';

/** A spec revision as the metrology needs it: places and dimensions; `definitionOf` makes one for a size class. */
export async function specOf(sql: Sql, revisionId: string): Promise<Sheet> {
  const revision = found(await findRevision(sql, revisionId), 'such spec revision');
  const [places, dimensions, positions, limits] = await Promise.all([
    findPlaces(sql, revisionId),
    findDimensions(sql, revisionId),
    findPositions(sql, revisionId),
    findLimits(sql, revisionId),
  ]);
  return sheetOf({ revision, places, dimensions, positions, limits });
}

export async function families(db: Models): Promise<Families> {
  const rows = await findFamilies(db);
  return {
    items: rows.map(({ id, code, name, cycle, cooling, boreNm, strokeNm, specRevisions: [newest] }) => ({
      id,
      code,
      name,
      cycle,
      cooling,
      bore: lengthOnWire(boreNm, 1),
      stroke: lengthOnWire(strokeNm, 1),
      revision:
        newest === undefined ? null : { id: newest.id, number: newest.number, figuresInvented: newest.figuresInvented },
    })),
  };
}

type Rest = NonNullable<Awaited<ReturnType<typeof findRest>>>;

const fastenersOnWire = (sets: Rest['specFastenerSets']): SpecSheet['fasteners'] =>
  sets.map((set) => ({
    code: set.code,
    name: set.name,
    thread: set.thread,
    propertyClass: set.propertyClass,
    condition: set.condition,
    tool: set.tool,
    reuse: set.reuse,
    orderIsMakers: set.orderIsMakers,
    source: set.source,
    page: set.page,
    positions: set.specFasteners.map(({ number, xNm, yNm }) => ({
      number,
      x: lengthOnWire(xNm, 1),
      y: lengthOnWire(yNm, 1),
    })),
    stages: set.specFastenerStages.map(({ ordinal, torqueUnm, angleUdeg }) => ({
      ordinal,
      torque: torqueUnm === null ? null : quantity(Number(torqueUnm), { unit: unitCodeOf(set.unit), decimals: 0 }),
      angle: angleUdeg === null ? null : angleOnWire(angleUdeg),
    })),
  }));

const valvesOnWire = (valves: Rest['specValves']): SpecSheet['valves'] =>
  valves.map((valve) => ({
    code: valve.code,
    name: valve.name,
    side: valve.side,
    dimensionCode: valve.dimensionCode,
    wanted: lengthOnWire(valve.wantedNm, 2),
    adjuster: valve.adjuster,
    shimDiameter: valve.shimDiameterNm === null ? null : lengthOnWire(valve.shimDiameterNm, 2),
    shimSizes:
      valve.shimLowNm === null || valve.shimHighNm === null
        ? null
        : { low: lengthOnWire(valve.shimLowNm, 2), high: lengthOnWire(valve.shimHighNm, 2) },
    screwPitch: valve.screwPitchNm === null ? null : lengthOnWire(valve.screwPitchNm, 2),
  }));

const ringsOnWire = (rings: Rest['specRings']): SpecSheet['rings'] =>
  rings.map(({ code, name, angleUdeg, part, pinUdeg, mark, faces }) => ({
    code,
    name,
    angle: angleUdeg === null ? null : angleOnWire(angleUdeg),
    part,
    pin: pinUdeg === null ? null : angleOnWire(pinUdeg),
    mark,
    faces,
  }));

/** Everything on one spec sheet, in the units it is printed in. */
export async function sheetInFull({ sql, prisma }: Database, revisionId: string): Promise<SpecSheet> {
  const [sheet, rest] = await Promise.all([specOf(sql, revisionId), findRest(prisma, revisionId)]);
  const { family, publishedBy, publishedAt, ...revision } = found(rest, 'such spec revision');
  return {
    id: revision.id,
    family: { id: family.id, name: family.name },
    number: revision.number,
    note: revision.note,
    figuresInvented: revision.figuresInvented,
    publishedAt: publishedAt?.toISOString() ?? null,
    publishedBy: publishedBy === null ? null : { id: publishedBy.id, name: publishedBy.name },
    places: sheet.places.map(placeOnWire),
    dimensions: sheet.dimensions.map(dimensionOnWire),
    fasteners: fastenersOnWire(revision.specFastenerSets),
    ringSeparation: revision.ringSeparationUdeg === null ? null : angleOnWire(revision.ringSeparationUdeg),
    railOffset: revision.railOffsetUdeg === null ? null : angleOnWire(revision.railOffsetUdeg),
    rings: ringsOnWire(revision.specRings),
    ringZones: revision.specRingZones.map(({ fromUdeg, toUdeg, reason }) => ({
      from: angleOnWire(fromUdeg),
      to: angleOnWire(toUdeg),
      reason,
    })),
    valves: valvesOnWire(revision.specValves),
    proofs: revision.specProofs.map(({ code, name, dimensionCode, words, caution }) => ({
      code,
      name,
      dimensionCode,
      words,
      caution,
    })),
  };
}
