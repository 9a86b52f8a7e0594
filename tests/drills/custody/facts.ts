import type { SqlPool } from '#platform/database/client.ts';
import type { Names } from './names.ts';
import { type Belief, type EngineBelief, type Held, WITH_ENGINE } from './state.ts';

/** What stands of one engine, in a form that belief and database can be compared in. */
export interface EngineFacts {
  readonly custody: readonly string[];
  readonly openings: readonly string[];
  readonly lines: readonly string[];
  readonly offers: readonly string[];
  readonly away: readonly string[];
  /** Open obligations: those on the inside, those not. */
  readonly duties: string;
}
export interface Facts {
  readonly at: string;
  readonly engines: readonly EngineFacts[];
}

const heldWords = (subject: string, { holder, place }: Held): string => {
  const by = 'person' in holder ? holder.person : 'bay' in holder ? holder.bay : 'vendor';
  return `${subject}: ${by} in ${place ?? 'no bay'}`;
};

/** What must stand by the drill's own belief. */
export const believed = (belief: Belief): readonly EngineFacts[] => belief.engines.map(believedOf);

function believedOf(engine: EngineBelief): EngineFacts {
  return {
    custody: [
      heldWords('engine', engine.held),
      ...engine.trays.map(({ key, held }) => heldWords(key, held)),
    ].toSorted(),
    openings: [
      ...engine.closed.map((key) => `${key} closed`),
      ...(engine.opening === null ? [] : [`${engine.opening.key} ${engine.opening.covered ? 'covered' : 'open'}`]),
    ].toSorted(),
    lines: engine.lines
      .map((line) => {
        const { key, expected, off, fitted, renewed, accounted, inside, lies, checked } = line;
        const places = [...lies].filter(([, count]) => count > 0).map(([tray, count]) => ({ tray, count }));
        return `${key}: ${expected}/${off}/${fitted}/${renewed}/${accounted}, ${inside} inside, ${inWords(places)}${checked ? ', checked' : ''}`;
      })
      .toSorted(),
    offers: engine.offers
      .map(
        ({ key, ended, trays }) =>
          `${key} ${ended ? 'ended' : 'open'} ${trays.reduce((sum, { attempts }) => sum + attempts, 0)}`,
      )
      .toSorted(),
    away: engine.away.map(({ key, back }) => `${key} ${back ? 'back' : 'away'}`).toSorted(),
    duties: `${engine.duties.filter(({ inside }) => inside).length} inside, ${engine.duties.filter(({ inside }) => !inside).length} other`,
  };
}

const inWords = (places: readonly { tray: string; count: number }[]): string =>
  places
    .map(({ tray, count }) => `${count} in ${tray === WITH_ENGINE ? 'no tray' : tray}`)
    .toSorted()
    .join(' and ');

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
    checked: boolean;
  }[];
  readonly offers: readonly { id: string; ended: boolean; attempts: number }[];
  readonly away: readonly { id: string; back: boolean }[];
  readonly inside: number;
  readonly other: number;
}

/** What stands in the database, and the instant at which it was read. */
export async function readFacts(sql: SqlPool, names: Names): Promise<Facts> {
  const ids = names.engines.map(({ engineId }) => engineId);
  const rows = await sql<(Row & { at: string })[]>`
    select clock_timestamp() as at, j.engine_id as "engineId",
      (select coalesce(json_agg(json_build_object('subject', coalesce(c.tray_id, c.engine_id), 'place', c.place_id,
         'holder', coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id))), '[]')
       from custody c where c.until_at is null and c.id in (
         select e.id from custody e where e.engine_id = j.engine_id and e.until_at is null
         union all select s.id from tray t join custody s on s.tray_id = t.id and s.until_at is null where t.job_id = j.id)) as custody,
      (select coalesce(json_agg(json_build_object('id', o.id, 'closed', o.closed_at is not null, 'covered', coalesce(s.covered, false))), '[]')
       from opening o left join opening_standing s on s.opening_id = o.id where o.job_id = j.id) as openings,
      (select coalesce(json_agg(json_build_object('id', p.id, 'expected', p.expected, 'off', p.off, 'fitted', p.fitted,
         'renewed', p.renewed, 'accounted', p.accounted,
         'inside', p.inside, 'withEngine', p.with_engine,
         'trays', (select coalesce(json_agg(json_build_object('tray', l.tray_id, 'count', l.count)), '[]')
                   from piece_in_tray l where l.piece_id = p.id and l.count > 0),
         'checked', exists (select from closing_check c where c.piece_id = p.id and c.checked_at >
                     (select max(m.moved_at) from piece_movement m where m.piece_id = p.id and m.act <> 'moved')))), '[]')
       from piece p join opening o on o.id = p.opening_id where o.job_id = j.id) as lines,
      (select coalesce(json_agg(json_build_object('id', h.id, 'ended', h.ended_at is not null, 'attempts',
         (select count(distinct (l.tray_id, k.attempt)) from handover_line l join handover_count k on k.line_id = l.id where l.handover_id = h.id))), '[]')
       from handover h where h.job_id = j.id) as offers,
      (select coalesce(json_agg(json_build_object('id', w.id, 'back', w.back_at is not null)), '[]')
       from outside_work w where w.job_id = j.id) as away,
      (select count(*)::int from obligation b where b.job_id = j.id and b.discharged_at is null and b.inside) as inside,
      (select count(*)::int from obligation b where b.job_id = j.id and b.discharged_at is null and not b.inside) as other
    from job j where j.engine_id = any(${ids}::uuid[])`;
  return {
    at: rows[0]?.at ?? '',
    engines: ids.map((engineId) =>
      factsOf(
        rows.find((row) => row.engineId === engineId),
        { names, engineId },
      ),
    ),
  };
}

function factsOf(row: Row | undefined, { names, engineId }: { names: Names; engineId: string }): EngineFacts {
  const key = (id: string | null): string => (id === engineId ? 'engine' : (names.key(id) ?? ''));
  return {
    custody: (row?.custody ?? [])
      .map(
        ({ subject, holder, place }) => `${key(subject)}: ${key(holder)} in ${place === null ? 'no bay' : key(place)}`,
      )
      .toSorted(),
    openings: (row?.openings ?? [])
      .map(({ id, closed, covered }) => `${key(id)} ${closed ? 'closed' : covered ? 'covered' : 'open'}`)
      .toSorted(),
    lines: (row?.lines ?? [])
      .map((line) => {
        const { id, expected, off, fitted, renewed, accounted, inside, withEngine, trays, checked } = line;
        const places = [
          ...(withEngine > 0 ? [{ tray: WITH_ENGINE, count: withEngine }] : []),
          ...trays.map(({ tray, count }) => ({ tray: key(tray), count })),
        ];
        return `${key(id)}: ${expected}/${off}/${fitted}/${renewed}/${accounted}, ${inside} inside, ${inWords(places)}${checked ? ', checked' : ''}`;
      })
      .toSorted(),
    offers: (row?.offers ?? [])
      .map(({ id, ended, attempts }) => `${key(id)} ${ended ? 'ended' : 'open'} ${attempts}`)
      .toSorted(),
    away: (row?.away ?? []).map(({ id, back }) => `${key(id)} ${back ? 'back' : 'away'}`).toSorted(),
    duties: `${row?.inside ?? 0} inside, ${row?.other ?? 0} other`,
  };
}
