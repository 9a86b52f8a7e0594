import type { Act } from './acts.ts';
import { keyedCounts } from './counting.ts';
import type { Names } from './names.ts';
import { type Belief, looseIn, lyingIn, WITH_ENGINE } from './state.ts';

/** What pieces are called that are kept in order; no others are. */
export const IN_ORDER = 'cam cap';

export interface Asked {
  readonly url: string;
  readonly body: object | undefined;
}

/** The request that asks the service for an act. `lines`: the ids of a handover's lines, tray by tray. */
export function requestOf(
  belief: Belief,
  act: Act,
  { names, lines }: { readonly names: Names; readonly lines: readonly string[] },
): Asked {
  const { id, bay, person } = names;
  const { jobId, engineId } = names.engines[act.engine];
  const engine = belief.engines[act.engine];
  const countedAs = (tray: string): string => (tray === WITH_ENGINE ? engineId : id(tray));
  const countsOf = (trays: readonly string[], counting: Parameters<typeof keyedCounts>[1]) =>
    keyedCounts(
      trays.flatMap((tray) =>
        looseIn(engine, tray).map((line) => ({ key: `${tray} ${line.key}`, there: lyingIn(line, tray) })),
      ),
      counting,
    ).map(({ key, counted }) => {
      const [tray = '', piece = ''] = key.split(' ');
      const [trayId, pieceId] = [countedAs(tray), id(piece)];
      return key === 'nothing'
        ? { trayId: names.nothing, pieceId: names.nothing, counted }
        : { trayId, pieceId, counted };
    });
  const moving = (of: Act & { kind: 'take' | 'leave' | 'move' }) => ({
    engine: of.withEngine,
    trayIds: of.trays.map(id),
    counts: countsOf([...of.trays, ...(of.withEngine ? [WITH_ENGINE] : [])], of.counting),
    withDifference: of.withDifference,
  });
  const tally = (what: string, opening: string | undefined, body: object): Asked => ({
    url: `/api/openings/${id(opening ?? '')}/pieces/${what}`,
    body,
  });
  const trayOf = (tray: string) => (tray === WITH_ENGINE ? null : id(tray));
  const takenOf = ({ line, from }: { readonly line: string; readonly from: string | undefined }) => ({
    pieceId: id(line),
    ...(from === undefined ? {} : { fromTrayId: trayOf(from) }),
  });
  const openingOf = (line: string) => engine.lines.find(({ key }) => key === line)?.opening;
  const rack = (line: string, what: string, body: object): Asked => ({
    url: `/api/openings/${id(openingOf(line) ?? '')}/racks/${id(line)}/${what}`,
    body,
  });
  const opening = engine.opening?.key ?? engine.closed.at(-1);
  switch (act.kind) {
    case 'take':
      return {
        url: `/api/engines/${engineId}/take`,
        body: { bayId: bay(act.bay), toBayId: bay(act.toBay), ...moving(act) },
      };
    case 'leave':
      return { url: `/api/engines/${engineId}/leave`, body: { bayId: bay(act.bay), ...moving(act) } };
    case 'move': {
      const to = act.to === null ? { bayId: bay(act.bay) } : { personId: person(act.to), bayId: bay(act.bay) };
      return { url: `/api/engines/${engineId}/move`, body: { to, reason: 'Gone home', ...moving(act) } };
    }
    case 'offer': {
      const body = {
        receiverId: person(act.receiver),
        placeId: bay(act.place),
        includeEngine: act.withEngine,
        trayIds: act.trays.map(id),
      };
      return { url: `/api/jobs/${jobId}/handovers`, body };
    }
    case 'count': {
      const tray = engine.offers.find(({ key }) => key === act.offer)?.trays.find((each) => each.tray === act.tray);
      const there = (tray?.lines ?? [{ given: 1 }]).map(({ given }, index) => ({ key: String(index), there: given }));
      const keyed = keyedCounts(there, act.counting).map(({ key, counted }) => ({
        lineId: lines[Number(key)] ?? names.nothing,
        counted,
      }));
      return { url: `/api/handovers/${id(act.offer)}/trays/${countedAs(act.tray)}/count`, body: { lines: keyed } };
    }
    case 'accept':
    case 'withdraw':
      return { url: `/api/handovers/${id(act.offer)}/${act.kind}`, body: undefined };
    case 'decline':
      return { url: `/api/handovers/${id(act.offer)}/decline`, body: { reason: act.reason } };
    case 'make tray':
      return { url: `/api/jobs/${jobId}/trays`, body: { name: 'Small parts', alone: act.alone } };
    case 'open':
      return { url: `/api/jobs/${jobId}/openings`, body: undefined };
    case 'cover':
      return { url: `/api/openings/${id(opening ?? '')}/cover`, body: { covered: act.covered } };
    case 'count off': {
      const { count, layer, oneTime, short, inOrder, places } = act;
      const byHand = {
        ...(inOrder ? { name: IN_ORDER, fromWhere: 'head', matchedSet: 'head and cam caps' } : { name: 'dowel' }),
        expected: Math.max(0, count + short),
        oneTime,
        ...(layer ? { layer: 'cover' } : {}),
      };
      const piece = act.line === null ? { byHand, count, places } : { pieceId: id(act.line), count, places };
      const into = act.tray === null ? {} : { trayId: id(act.tray) };
      return tally('off', opening, { pieces: [piece], ...into, reason: act.reason });
    }
    case 'moved': {
      const { count, places } = act;
      const piece = { ...takenOf(act), places, ...(count === undefined ? {} : { count }) };
      return tally('moved', openingOf(act.line), { pieces: [piece], trayId: trayOf(act.tray) });
    }
    case 'fitted':
    case 'renewed':
    case 'accounted':
      return tally(act.kind, openingOf(act.line), {
        pieces: [{ ...takenOf(act), count: act.count, places: act.places }],
        reason: 'Looked twice',
      });
    case 'found': {
      const pieces = [{ pieceId: id(act.line), count: act.count, places: act.places }];
      return tally('found', openingOf(act.line), { pieces, reason: 'Looked twice' });
    }
    case 'never there':
    case 'possibly inside': {
      const pieces = [{ pieceId: id(act.line), count: act.count }];
      return tally(act.kind.replace(' ', '-'), openingOf(act.line), { pieces, reason: 'Looked twice' });
    }
    case 'fill':
      return rack(act.line, 'places', { filled: act.filled, emptied: act.emptied });
    case 'swap':
      return rack(act.line, 'swap', { one: act.one, other: act.other, reason: act.reason });
    case 'put in':
      return {
        url: `/api/openings/${id(act.opening)}/put-in`,
        body: { kind: 'rag', where: 'in the case mouth', count: act.count },
      };
    case 'taken out':
    case 'not found':
    case 'turned up': {
      const path = { 'taken out': 'taken-out', 'not found': 'not-found', 'turned up': 'found' }[act.kind];
      return { url: `/api/put-in/${id(act.thing)}/${path}`, body: { count: act.count, reason: 'Looked twice' } };
    }
    case 'look':
      return { url: `/api/searches/${id(act.search)}/ticks`, body: { step: act.step } };
    case 'decide':
      return { url: `/api/searches/${id(act.search)}/decision`, body: { reason: 'Searched to the end' } };
    case 'check':
      return { url: `/api/openings/${id(opening ?? '')}/check`, body: { lines: act.lines.map(id) } };
    case 'close':
      return {
        url: `/api/openings/${id(act.opening)}/close`,
        body: act.override ? { override: 'I answer for it' } : {},
      };
    case 'send out': {
      const subject = act.tray === null ? { engine: true } : { trayId: id(act.tray) };
      const counts = countsOf([act.tray ?? WITH_ENGINE], act.counting);
      const going = { subject, vendorId: names.vendorId, work: 'Plating', dueOn: '2099-12-31' };
      const body = { ...going, counts, withDifference: act.withDifference };
      return { url: `/api/jobs/${jobId}/outside-work`, body };
    }
    case 'back': {
      const tray = engine.away.find(({ key }) => key === act.away)?.tray ?? null;
      const counts = countsOf([tray ?? WITH_ENGINE], act.counting);
      const body = { bayId: bay(act.bay), counts, withDifference: act.withDifference };
      return { url: `/api/outside-work/${id(act.away)}/back`, body };
    }
    case 'discharge':
      return { url: `/api/obligations/${id(act.duty)}/discharge`, body: { reason: 'Settled' } };
    case 'begin run':
      return { url: `/api/jobs/${jobId}/procedure-runs`, body: { versionId: names.versionId } };
    case 'leave run': {
      const body = { why: 'End of the shift', loose: 'nothing' };
      return { url: `/api/procedure-runs/${id(act.run)}/interrupt`, body };
    }
    case 'resume run':
      return { url: `/api/procedure-runs/${id(act.run)}/resume`, body: undefined };
    case 'read': {
      const readings = [{ position: '1', repeat: 1, felt: true }];
      return { url: `/api/jobs/${jobId}/readings`, body: { round: act.round, dimension: 'big-end-play', readings } };
    }
  }
}
