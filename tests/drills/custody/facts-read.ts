import type { SqlPool } from '#platform/database/client.ts';
import { type EngineFacts, type EngineIndex, type Facts, numbersInWords, placesInWords, rackInWords } from './facts.ts';
import type { Names } from './names.ts';
import type { RackedPiece } from './rack.ts';
import { WITH_ENGINE } from './state.ts';

interface Row {
  readonly engineId: string;
  readonly custody: readonly { subject: string; holder: string; place: string | null }[];
  readonly openings: readonly { id: string; closed: boolean; covered: boolean }[];
  readonly lines: readonly {
    id: string;
    expected: number;
    off: number;
    fitted: number;
    renewed: number;
    accounted: number;
    inside: number;
    withEngine: number;
    trays: readonly { tray: string; count: number }[];
    rack: readonly RackedPiece[];
    checked: boolean;
    opening: string;
    offAt: string | null;
  }[];
  readonly things: readonly {
    id: string;
    opening: string;
    offAt: string;
    count: number;
    cameOut: number;
    notFound: number;
    checked: boolean;
  }[];
  readonly searches: readonly { id: string; outcome: string | null; ticks: number }[];
  readonly offers: readonly { id: string; ended: boolean; attempts: number; counted: readonly number[] }[];
  readonly away: readonly { id: string; back: boolean }[];
  readonly runs: readonly { id: string; left: boolean }[];
  readonly countsKept: number;
  readonly inside: number;
  readonly other: number;
}

/** What stands in the database of some engines, and the instant at which it was read: one statement. */
export async function readFacts(
  sql: SqlPool,
  { names, of }: { readonly names: Names; readonly of: readonly EngineIndex[] },
): Promise<Facts> {
  const ids = of.map((index) => names.engines[index].engineId);
  const rows = await sql<(Row & { at: string })[]>`
    select clock_timestamp() as at, j.engine_id as "engineId",
      (select coalesce(json_agg(json_build_object('subject', coalesce(c.tray_id, c.engine_id), 'place', c.place_id,
         'holder', coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id))), '[]')
       from custody c where c.until_at is null and c.id in (
         select e.id from custody e where e.engine_id = j.engine_id and e.until_at is null
         union all select s.id from tray t join custody s on s.tray_id = t.id and s.until_at is null where t.job_id = j.id)) as custody,
      (select coalesce(json_agg(json_build_object('id', o.id, 'closed', o.closed_at is not null, 'covered', coalesce(s.covered, false))), '[]')
       from opening o left join opening_standing s on s.opening_id = o.id where o.job_id = j.id) as openings,
      (select coalesce(json_agg(json_build_object('id', p.id, 'opening', p.opening_id, 'expected', p.expected, 'off', p.off, 'fitted', p.fitted,
         'renewed', p.renewed, 'accounted', p.accounted, 'inside', p.inside, 'withEngine', p.with_engine,
         'offAt', (select max(m.moved_at) from piece_movement m where m.piece_id = p.id and m.act = 'off'),
         'trays', (select coalesce(json_agg(json_build_object('tray', l.tray_id, 'count', l.count)), '[]')
                   from piece_in_tray l where l.piece_id = p.id and l.count > 0),
         'rack', (select coalesce(json_agg(json_build_object('from', s.code, 'at', s.at_code, 'laid', s.laid, 'tray', coalesce(s.tray_id::text, '')) order by s.ordinal), '[]')
                  from position_standing s where s.piece_id = p.id),
         'checked', exists (select from closing_check c where c.piece_id = p.id and c.checked_at > greatest(
                     (select max(m.moved_at) from piece_movement m where m.piece_id = p.id and m.act <> 'moved'),
                     (select max(w.moved_at) from position_move w where w.piece_id = p.id))))), '[]')
       from piece p join opening o on o.id = p.opening_id where o.job_id = j.id) as lines,
      (select coalesce(json_agg(json_build_object('id', i.id, 'opening', i.opening_id, 'offAt', i.put_in_at, 'count', i.count, 'cameOut', i.came_out, 'notFound', i.not_found,
         'checked', exists (select from closing_check c where c.put_in_id = i.id and c.checked_at > greatest(i.put_in_at,
                     (select max(a.acted_at) from put_in_act a where a.put_in_id = i.id))))), '[]')
       from put_in i join opening o on o.id = i.opening_id where o.job_id = j.id) as things,
      (select coalesce(json_agg(json_build_object('id', s.id, 'outcome', s.outcome,
         'ticks', (select count(*) from search_tick t where t.search_id = s.id))), '[]')
       from inside_search s where s.job_id = j.id) as searches,
      (select coalesce(json_agg(json_build_object('id', h.id, 'ended', h.ended_at is not null,
         'counted', array(select distinct on (l.id) k.counted from handover_line l join handover_count k on k.line_id = l.id
                          where l.handover_id = h.id order by l.id, k.attempt desc), 'attempts',
         (select count(distinct (l.tray_id, k.attempt)) from handover_line l join handover_count k on k.line_id = l.id where l.handover_id = h.id))), '[]')
       from handover h where h.job_id = j.id) as offers,
      (select coalesce(json_agg(json_build_object('id', w.id, 'back', w.back_at is not null)), '[]')
       from outside_work w where w.job_id = j.id) as away,
      (select coalesce(json_agg(json_build_object('id', r.id, 'left', exists (
         select from run_interruption i where i.run_id = r.id
           and not exists (select from run_resumption n where n.interruption_id = i.id)))), '[]')
       from procedure_run r where r.job_id = j.id) as runs,
      (select count(*)::int from moving_count c where c.job_id = j.id) as "countsKept",
      (select count(*)::int from obligation b where b.job_id = j.id and b.discharged_at is null and b.inside) as inside,
      (select count(*)::int from obligation b where b.job_id = j.id and b.discharged_at is null and not b.inside) as other
    from job j where j.engine_id = any(${ids}::uuid[])`;
  return {
    at: rows[0]?.at ?? '',
    engines: of.map((index) => {
      const { engineId } = names.engines[index];
      const row = rows.find((each) => each.engineId === engineId);
      if (row === undefined) throw new Error(`engine ${index} of the drill has no job`);
      return { index, facts: factsOf(row, names) };
    }),
  };
}

function factsOf(row: Row, names: Names): EngineFacts {
  const key = (id: string | null): string => (id === row.engineId ? 'engine' : (names.key(id) ?? ''));
  return {
    custody: row.custody
      .map(
        ({ subject, holder, place }) => `${key(subject)}: ${key(holder)} in ${place === null ? 'no bay' : key(place)}`,
      )
      .toSorted(),
    openings: row.openings
      .map(({ id, closed, covered }) => `${key(id)} ${closed ? 'closed' : covered ? 'covered' : 'open'}`)
      .toSorted(),
    lines: row.lines.map((line) => lineWords(line, key)).toSorted(),
    things: row.things
      .map(
        ({ id, count, cameOut, notFound, checked }) =>
          `${key(id)}: ${count}/${cameOut}/${notFound}${checked ? ', checked' : ''}`,
      )
      .toSorted(),
    searches: row.searches
      .map(({ id, outcome, ticks }) => `${key(id)}: ${outcome ?? 'goes on'}, ${ticks} ticked`)
      .toSorted(),
    toCheck: toCheckWords(row, key),
    offers: row.offers
      .map(
        ({ id, ended, attempts, counted }) =>
          `${key(id)} ${ended ? 'ended' : 'open'} ${attempts}: ${numbersInWords(counted)}`,
      )
      .toSorted(),
    away: row.away.map(({ id, back }) => `${key(id)} ${back ? 'back' : 'away'}`).toSorted(),
    runs: row.runs.map(({ id, left }) => `${key(id)} ${left ? 'left' : 'goes on'}`).toSorted(),
    countsKept: row.countsKept,
    duties: `${row.inside} inside, ${row.other} other`,
  };
}

/** What came off or was put in, the last first. */
function toCheckWords({ openings, lines, things }: Row, key: (id: string) => string): string {
  const open = openings.find(({ closed }) => !closed)?.id;
  return [...lines, ...things]
    .filter(({ opening }) => opening === open)
    .toSorted((a, b) => ((a.offAt ?? '') < (b.offAt ?? '') ? 1 : -1))
    .map(({ id }) => key(id))
    .join(', ');
}

function lineWords(line: Row['lines'][number], key: (id: string) => string): string {
  const { id, expected, off, fitted, renewed, accounted, inside, withEngine, trays, rack, checked } = line;
  const places = [
    ...(withEngine > 0 ? [{ tray: WITH_ENGINE, count: withEngine }] : []),
    ...trays.map(({ tray, count }) => ({ tray: key(tray), count })),
  ];
  const inTrays = rack.map((piece) => ({ ...piece, tray: piece.tray === '' ? WITH_ENGINE : key(piece.tray) }));
  return `${key(id)}: ${expected}/${off}/${fitted}/${renewed}/${accounted}, ${inside} inside, ${placesInWords(places)}${rackInWords(inTrays)}${checked ? ', checked' : ''}`;
}
