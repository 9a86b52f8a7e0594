import type { BuildSheet } from '#contracts/hand-back.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { unitCodeOf, unitOf } from '#domain/units/unit-table.ts';
import { assemblyPage } from '#features/assembly/service.ts';
import { blindContents, reasonShownTo, wordsShownTo } from '#features/custody/service.ts';
import { hoursOf } from '#features/intake/service.ts';
import { photosOnSheet } from '#features/photos/service.ts';
import { shopHead } from '#features/shop/head/service.ts';
import { standingFigures } from '#features/worked-figures/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import {
  findDecisions,
  findEndedSearches,
  findFindings,
  findHandovers,
  findHead,
  findOpeningsMade,
  findOutside,
  findOverrides,
  findParts,
  findPeople,
  findProofsMade,
  findRevisionMoves,
  findShims,
  findUnphotographed,
  type SheetFinding,
} from './sheet-queries.ts';

/** A finding's value as it is written: figure and guard band, an interval, or what was felt. */
function findingText({ type, low, high, guard, unit, decimals }: SheetFinding): string {
  const code = unitCodeOf(unit);
  const figure = (value: number) => formatQuantity(value, code, decimals);
  // A guard band of 0.0029 % on a sheet of two decimals is not nothing.
  const kept = [0, 1, 2, 3].map((more) => formatQuantity(guard, code, decimals + more));
  const keptOff = kept.find((text) => /[1-9]/.test(text)) ?? figure(guard);
  switch (type) {
    case 'felt':
      return low === 0 ? 'no play felt' : 'play felt';
    case 'interval':
      return high === null ? `${figure(low)} or more` : `${figure(low)} – ${figure(high)}`;
    case 'span':
      return `${figure(low)} – ${high === null ? '…' : figure(high)} ± ${keptOff}`;
    case 'point':
      return `${figure(low)} ± ${keptOff}`;
  }
}

function sheetFinding(row: SheetFinding): BuildSheet['findings'][number] {
  const code = unitCodeOf(row.unit);
  const plain = (value: number) => Number(formatQuantity(value, code, row.decimals + 3));
  const bound = (value: number | null | undefined) => (value === null || value === undefined ? null : plain(value));
  return {
    dimension: row.dimension,
    name: row.name,
    round: row.round,
    text: findingText(row),
    unit: unitOf(code).symbol,
    verdict: row.verdict,
    rule: row.rule,
    figure: {
      low: plain(row.low),
      high: row.high === null ? null : plain(row.high),
      guard: plain(row.guard),
      type: row.type,
      decimals: row.decimals,
      standardLow: bound(row.limits.standard?.low),
      standardHigh: bound(row.limits.standard?.high),
      serviceLow: bound(row.limits.service?.low),
      serviceHigh: bound(row.limits.service?.high),
    },
    instruments: [...row.instruments],
    by: { id: row.byId, name: row.by },
    at: row.at,
    revision: row.revision,
    disagreed: row.crossChecks.filter(({ agrees }) => !agrees).map(({ words }) => words),
  };
}

/** The proof of one job on paper, gathered from its facts; printed before hand-back it says what is still open. */
export async function buildSheet(
  sql: Sql,
  { jobId, viewerId }: { readonly jobId: string; readonly viewerId: string },
): Promise<BuildSheet> {
  const head = found(await findHead(sql, jobId), 'such job');
  const page = await assemblyPage(sql, jobId);
  const shown = await wordsShownTo(sql, { jobId, viewerId });
  const blind = await blindContents(sql, { jobId, viewerId });
  return {
    shop: { ...(await shopHead(sql)), figuresInvented: head.figuresInvented },
    jobNumber: head.number,
    visit: head.visit,
    engine: { serial: head.serial, family: head.family, cycle: head.cycle, cooling: head.cooling },
    owner: head.owner,
    hours: hoursOf(head.minutes),
    complaint: head.complaint,
    wishes: head.wishes,
    takenInAt: head.takenInAt,
    handedBackAt: head.handedBackAt,
    handedBackBy: head.handedBackById === null ? null : { id: head.handedBackById, name: head.handedBackBy ?? '' },
    note: head.note,
    revision: {
      number: head.revision,
      family: head.family,
      moves: [...(await findRevisionMoves(sql, jobId))],
    },
    findings: (await findFindings(sql, jobId)).map(sheetFinding),
    decisions: (await findDecisions(sql, jobId)).map(({ id, ...decision }) => ({
      ...decision,
      obligation: shown(id, decision.obligation),
    })),
    parts: [...(await findParts(sql, jobId))],
    outside: [...(await findOutside(sql, jobId))],
    torque: page.sets
      .filter(({ pulls }) => pulls.length > 0)
      .map(({ name, stages, pulls, complete, condition }) => ({
        name,
        stages: stages.map(({ figure }) => `${figure.value} ${unitOf(unitCodeOf(figure.unit)).symbol}`),
        pulls: pulls.length,
        complete,
        by: [...new Set(pulls.map(({ by }) => by.name))],
        condition,
        wrenches: [...new Set(pulls.flatMap(({ instrumentCode }) => instrumentCode ?? []))],
      })),
    ringsPlaced:
      page.ringsPlaced === null
        ? null
        : {
            by: page.ringsPlaced.by.name,
            marksWell: page.ringsPlaced.marksWell,
            signedBy: page.ringsPlaced.signedBy?.name ?? null,
          },
    rings:
      page.ringsPlaced === null
        ? []
        : page.rings.map(({ name, angle, mark, faces, seenFacing, faults }) => ({
            name,
            angle: angle?.value ?? null,
            mark,
            faces: seenFacing ?? (faces === 'either' ? 'either' : null),
            faults,
          })),
    shims: (await findShims(sql, jobId)).map(({ valve, chosen, from }) => ({
      valve,
      thickness: formatQuantity(chosen, 'mm', 3),
      from,
    })),
    worked: await standingFigures(sql, jobId),
    photos: (await photosOnSheet(sql, { jobId, viewerId })).map(({ id, caption, of, takenAt, by }) => ({
      id,
      caption,
      of: of.words,
      takenAt,
      by: by.name,
    })),
    unphotographed: [...(await findUnphotographed(sql, jobId))],
    proofs: [...(await findProofsMade(sql, jobId))],
    openings: (await findOpeningsMade(sql, jobId)).map((opening) =>
      blind.trays.size > 0 ? { ...opening, pieces: null } : opening,
    ),
    handovers: await findHandovers(sql, jobId),
    searches: [...(await findEndedSearches(sql, jobId))],
    overrides: (await findOverrides(sql, jobId)).map((override) => ({
      ...override,
      reasons: override.reasons.map((reason) => reasonShownTo(reason, blind.pieces)),
    })),
    agreed: head.agreedMinor === null ? null : { minor: String(head.agreedMinor), currency: head.currency.trim() },
    people: [...(await findPeople(sql, jobId))],
    promised: head.promised,
  };
}
