import { useLine } from '../../app/live.ts';
import { useEntries } from '../../app/outbox.ts';
import { useDownSince } from '../../app/outbox-sending.ts';
import { useSession } from '../../app/session.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** How many entries wait at this terminal, and whose; nothing while all is sent. */
export function KeptBanner() {
  const { measure } = useWords();
  const { person } = useSession();
  const format = useFormat();
  const entries = useEntries().filter(({ refusal }) => refusal === null);
  const line = useLine();
  const downSince = useDownSince();
  const own = entries.filter(({ personId }) => personId === person.id).length;
  const others = entries.filter(({ personId }) => personId !== person.id);
  const names = [...new Set(others.map((entry) => entry.person))].join(', ');
  const { offline } = measure;
  if (downSince === null && others.length === 0) return null;
  const since = downSince === null ? null : Math.min(downSince, line.live ? downSince : line.since);
  return (
    <div className="banner" role="status">
      {since === null ? null : (
        <span>
          <b>{offline.since(format.time(new Date(since).toISOString()))}</b>{' '}
          {own === 0 ? (
            offline.none
          ) : (
            <>
              <b className="num">{own}</b> {offline.entries(own)} {offline.kept(own)}
            </>
          )}
        </span>
      )}
      {others.length === 0 ? null : <span>{offline.others(others.length, names)}</span>}
    </div>
  );
}
